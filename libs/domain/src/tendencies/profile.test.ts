import fc from 'fast-check';
import { starterVocabulary } from '../charting/vocabulary.js';
import { DomainError } from '../domain-error.js';
import { wilsonInterval } from '../statistics/wilson-interval.js';
import { chartedFacts, times, type ChartedRow } from './charted-rows.js';
import { fieldModel, type FieldModel } from './field-model.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { DEFAULT_NOTABLE, notableShares } from './notable.js';
import { profile, type ProfileInput } from './profile.js';
import type { DimensionProfile, Profile } from './profile-shape.js';
import { ALL_SNAPS } from './situation-keys.js';
import type { TendencyPlays } from './tendency-plays.js';

const vocabulary = starterVocabulary();
const NOBODY: FieldModel = modelOf([[]]);

/** One list of rows a player; player 0's come first. */
function modelOf(players: readonly (readonly ChartedRow[])[]): FieldModel {
  const facts = chartedFacts(...players);
  return fieldModel({ facts, side: 'offense', playerOf: facts.plays.chartIndex, players: players.length, vocabulary });
}

function profileOf(plays: TendencyPlays, more: Partial<ProfileInput> = {}): Profile {
  return profile({ plays, side: 'offense', vocabulary, fieldModel: NOBODY, player: -1, confidence: 0.9, ...more });
}

function dimensionOf(found: Profile, name: string, situation = ALL_SNAPS): DimensionProfile {
  const dimension = found.situations
    .find((each) => each.situation === situation)
    ?.dimensions.find((each) => each.dimension === name);
  if (dimension === undefined) throw new Error(`no ${name} in ${situation}`);
  return dimension;
}

const run: ChartedRow = { called: 'run', down: 1, distance: 10, yardsToGoal: 60 };
const pass: ChartedRow = { ...run, called: 'pass' };

describe('a profile', () => {
  it('of a player without plays has no situation and no zero', () => {
    expect(profileOf(chartedFacts([]))).toEqual({
      side: 'offense',
      confidence: 0.9,
      snaps: 0,
      games: 0,
      situations: [],
    });
  });

  it('has shares that add up to 1, and posterior means that stay within 0 and 1', () => {
    const concept = fc.constantFrom('concept.mesh', 'concept.power', 'concept.slants', 'concept.duo');
    const rows = fc.array(fc.option(concept), { minLength: 1, maxLength: 40 });
    const charted = (concepts: readonly (string | null)[]): ChartedRow[] =>
      concepts.map((each) => (each === null ? run : { ...run, concept: each }));
    fc.assert(
      fc.property(rows, fc.array(rows, { minLength: 6, maxLength: 8 }), (own, others) => {
        const fieldOfOthers = modelOf([[], ...others.map(charted)]);
        const found = profileOf(chartedFacts(charted(own)), { fieldModel: fieldOfOthers, player: 0 });
        const { values, known } = dimensionOf(found, 'concept');
        const sum = values.reduce((total, { raw }) => total + raw.share, 0);
        if (known > 0) expect(sum).toBeCloseTo(1, 12);
        const means = values.flatMap(({ shrunk }) => (shrunk === null ? [] : [shrunk.share]));
        expect(means.reduce((total, mean) => total + mean, 0)).toBeLessThanOrEqual(1 + 1e-9);
        for (const { shrunk } of values) {
          if (shrunk === null) continue;
          expect(shrunk.interval.lower).toBeLessThanOrEqual(shrunk.interval.upper);
          expect(shrunk.interval.lower).toBeGreaterThanOrEqual(0);
          expect(shrunk.interval.upper).toBeLessThanOrEqual(1);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('counts shares over the plays on which the dimension is known, and says which plays', () => {
    const found = profileOf(chartedFacts([run, pass, pass], [{ down: 1, distance: 10 }, pass]));
    const called = dimensionOf(found, 'called');
    expect(called).toMatchObject({ known: 4, effectiveKnown: 4, prior: null });
    expect(found).toMatchObject({ snaps: 5, games: 2 });
    expect(called.values.map(({ value, count, raw }) => [value.label, count, raw.share])).toEqual([
      ['pass', 3, 0.75],
      ['run', 1, 0.25],
    ]);
    expect(called.values[0]?.raw.interval).toEqual(wilsonInterval(3, 4, 0.9));
    expect(called.values[0]?.evidence.references()).toEqual([
      { chartIndex: 0, playNumber: 2 },
      { chartIndex: 0, playNumber: 3 },
      { chartIndex: 1, playNumber: 2 },
    ]);
    expect(called.values[0]?.evidence.references(1)).toEqual([{ chartIndex: 0, playNumber: 2 }]);
  });

  it('leaves kicks, kneels and tries out', () => {
    const rows = [run, { ...run, playType: 'kneel' }, { playType: 'punt', down: 4, distance: 8 }];
    expect(profileOf(chartedFacts(rows)).snaps).toBe(1);
  });

  it('without a field shrinks to nothing and says so', () => {
    const [pass1] = dimensionOf(profileOf(chartedFacts([pass, run])), 'called').values;
    expect(pass1).toMatchObject({ shrunk: null, field: null, conflict: false, posterior: null });
  });

  it('leaves the own plays out of the field, and nothing else', () => {
    const players = [times(10, pass), [...times(6, run), ...times(4, pass)], times(5, run)];
    const found = profileOf(chartedFacts(times(10, pass)), { fieldModel: modelOf(players), player: 0 });
    // The others called 4 passes in 15 plays.
    expect(dimensionOf(found, 'called').values[0]?.field).toEqual({ share: 4 / 15, count: 4, known: 15 });
  });

  it('pulls a share towards the field, the more the fewer plays it has', () => {
    const others = Array.from({ length: 8 }, (_, player) => [...times(10 + player, run), ...times(20 - player, pass)]);
    const field = modelOf([[], ...others]);
    const shrunkOf = (plays: number): number => {
      const found = profileOf(chartedFacts(times(plays, pass)), { fieldModel: field, player: 0 });
      return dimensionOf(found, 'called').values[0]?.shrunk?.share ?? Number.NaN;
    };
    expect(shrunkOf(2)).toBeLessThan(shrunkOf(10));
    expect(shrunkOf(10)).toBeLessThan(shrunkOf(60));
    expect(shrunkOf(60)).toBeLessThan(1);
    expect(shrunkOf(2)).toBeGreaterThan(0.5);
  });

  it('lists what the field does often and the player was never seen to do', () => {
    const field = modelOf([[], [...times(20, run), ...times(20, pass)]]);
    const called = dimensionOf(profileOf(chartedFacts(times(12, pass)), { fieldModel: field, player: 0 }), 'called');
    const unseen = called.values.find(({ value }) => value.label === 'run');
    expect(unseen).toMatchObject({ count: 0, raw: { share: 0 }, field: { count: 20, known: 40 } });
    expect(unseen?.evidence.places()).toEqual([]);
  });

  it('weighs recent plays more, with the effective number of plays', () => {
    // Weights 1, 1, 2: share of the pass (2 / 4); Kish 16 / 6.
    const called = dimensionOf(
      profileOf(chartedFacts([run, run, pass]), { weights: Float64Array.of(1, 1, 2) }),
      'called',
    );
    expect(called.effectiveKnown).toBeCloseTo(16 / 6, 12);
    expect(called.values.map(({ value, count, raw }) => [value.label, count, raw.share])).toEqual([
      ['run', 2, 0.5],
      ['pass', 1, 0.5],
    ]);
  });

  it('with weights of zero only knows nothing', () => {
    const called = dimensionOf(profileOf(chartedFacts([run]), { weights: Float64Array.of(0) }), 'called');
    expect(called).toMatchObject({ known: 1, effectiveKnown: 0, values: [] });
  });

  it('tells results by value, and null where there are none', () => {
    const complete = { ...pass, snapResult: 'snapResult.complete' };
    const rows = [{ ...complete, yardsGained: 20 }, { ...complete, yardsGained: 1 }, run];
    const [passes, runs] = dimensionOf(profileOf(chartedFacts(rows)), 'called').values;
    expect(passes?.results).toMatchObject({
      trials: 2,
      successes: 1,
      success: { share: 0.5 },
      yards: { plays: 2, mean: 10.5 },
      explosive: { plays: 2, count: 1, share: 0.5 },
    });
    expect(runs?.results).toMatchObject({ trials: 0, success: null, yards: null, fieldSuccess: null });
  });

  it('keeps situations apart, in the order of their list', () => {
    const third = { ...pass, down: 3, distance: 8 };
    const found = profileOf(chartedFacts([run, third, third]));
    expect(found.situations.map(({ situation, snaps }) => [situation, snaps])).toEqual([
      [ALL_SNAPS, 3],
      ['1st and 10', 1],
      ['3rd and 7-10', 2],
    ]);
    const asked = profileOf(chartedFacts([run, third]), { situations: ['3rd and 7-10'], dimensions: ['called'] });
    expect(asked.situations.map(({ situation, dimensions }) => [situation, dimensions.length])).toEqual([
      ['3rd and 7-10', 1],
    ]);
  });

  it('warns where a field is seen by result', () => {
    const good = { ...pass, yardsGained: 9, snapResult: 'snapResult.complete' };
    const bad = { ...pass, yardsGained: 0, snapResult: 'snapResult.complete' };
    const seen = times(20, { ...good, targetDepth: 'targetDepth.deep' });
    const rows = [
      ...seen,
      ...times(4, good),
      ...times(4, { ...bad, targetDepth: 'targetDepth.short' }),
      ...times(20, bad),
    ];
    const found = profileOf(chartedFacts(rows));
    expect(dimensionOf(found, 'targetDepth').visibility).toMatchObject({
      knownOnSuccesses: 20,
      successes: 24,
      knownOnFailures: 4,
      failures: 24,
    });
    expect(dimensionOf(found, 'called').visibility).toBeNull();
  });

  it('flags a share that shrinkage hides', () => {
    // Players who are all alike make the prior so strong that six passes in six stay near the field's half.
    const others = Array.from({ length: 12 }, () => [...times(20, run), ...times(20, pass)]);
    const found = profileOf(chartedFacts(times(6, pass)), { fieldModel: modelOf([[], ...others]), player: 0 });
    expect(dimensionOf(found, 'called').values[0]?.conflict).toBe(true);
  });

  it.each([0, 1, Number.NaN])('refuses a confidence of %s', (confidence) => {
    expect(() => profileOf(chartedFacts([run]), { confidence })).toThrow(
      expect.objectContaining({ code: 'stats.invalid_probability' }),
    );
  });

  it('refuses weights that are not one a play', () => {
    expect(() => profileOf(chartedFacts([run]), { weights: Float64Array.of(1, 2) })).toThrow(DomainError);
  });
});

describe('notable shares', () => {
  const others = Array.from({ length: 12 }, (_, player) => [...times(14 + player, run), ...times(26 - player, pass)]);
  const notable = (plays: readonly ChartedRow[]): string[] => {
    const found = profileOf(chartedFacts(plays), { fieldModel: modelOf([[], ...others]), player: 0 });
    return notableShares(found, DEFAULT_NOTABLE)
      .filter(({ established, situation }) => established && situation.situation === ALL_SNAPS)
      .map(({ share, direction }) => `${direction} ${share.value.label}`);
  };

  it('name the one of two values that is used more', () => {
    expect(notable(times(60, pass))).toEqual(['more pass']);
  });

  it('name nothing where the player does as the field', () => {
    expect(notable([...times(30, run), ...times(30, pass)])).toEqual([]);
  });

  it('name nothing on two plays', () => {
    expect(notable(times(2, pass))).toEqual([]);
  });

  it('come established first, then the leads that chance explains least', () => {
    const random = seededRandom(5);
    const concepts = ['concept.mesh', 'concept.drive', 'concept.stick', 'concept.slants', 'concept.flood'];
    const rows = (plays: number, liking: number): ChartedRow[] =>
      Array.from({ length: plays }, () => ({
        ...pass,
        down: 1 + Math.floor(3 * random()),
        concept: concepts[random() < liking ? 0 : Math.floor(concepts.length * random())] ?? '',
      }));
    const others = Array.from({ length: 8 }, () => rows(60, 0));
    const found = profileOf(chartedFacts(rows(40, 0.3)), { fieldModel: modelOf([[], ...others]), player: 0 });
    const list = notableShares(found, DEFAULT_NOTABLE);
    const leads = list.filter(({ established }) => !established);
    expect(leads.length).toBeGreaterThan(1);
    expect(list.slice(-leads.length)).toEqual(leads);
    for (const [place, { chance, share, dimension, direction }] of leads.entries()) {
      expect(chance).toBeGreaterThanOrEqual(leads[place - 1]?.chance ?? 0);
      const away = (share.field?.share ?? 0) + (direction === 'more' ? 0.05 : -0.05);
      expect(chance).toBeCloseTo(binomialTail(direction, share.count, dimension.known, away), 10);
    }
  });

  it('refuse a margin outside (0, 1)', () => {
    const found = profileOf(chartedFacts([run]));
    expect(() => notableShares(found, { margin: 0, certainty: 0.9 })).toThrow(DomainError);
  });
});

/** By adding up its terms. */
function binomialTail(direction: 'more' | 'less', count: number, known: number, share: number): number {
  let [term, below] = [(1 - share) ** known, 0];
  let upTo = 0;
  for (let plays = 0; plays <= count; plays += 1) {
    below = upTo;
    upTo += term;
    term *= ((known - plays) / (plays + 1)) * (share / (1 - share));
  }
  return direction === 'more' ? 1 - below : upTo;
}
