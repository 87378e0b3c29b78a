import { starterVocabulary } from '../../charting/vocabulary.js';
import type { PlaySketch } from '../../football/testing/chart-of.js';
import type { Side, TendencyPlays } from '../tendency-plays.js';
import { leads } from './leads.js';
import type { TellsResult } from './tell-shape.js';
import { tells } from './tells.js';
import { gamesOf, SECOND_AND_LONG } from './testing/games-of.js';

function report(plays: TendencyPlays, side: Side = 'offense'): TellsResult {
  return tells({ plays, side, vocabulary: starterVocabulary(), confidence: 0.9, level: 0.1 });
}

/** Games of forty plays on second and long; ten of each from a bunch, nine of which are runs, of the others half are. */
function bunchRuns(games: number, more: (place: number) => PlaySketch = () => ({})): PlaySketch[][] {
  return Array.from({ length: games }, () =>
    Array.from({ length: 40 }, (_, place) => ({
      ...SECOND_AND_LONG,
      formation: place % 4 === 0 ? 'bunch' : 'pro',
      called: place % 4 === 0 ? (place === 0 ? 'pass' : 'run') : place % 2 === 0 ? 'run' : 'pass',
      lineUpSecond: 100 * place,
      snapSecond: 100 * place + 6,
      ...more(place),
    })),
  );
}

it('says what was counted, where, and with what it was compared', () => {
  const { tells: found, tested } = report(gamesOf(bunchRuns(4)));
  expect(found).toHaveLength(1);
  expect(found[0]).toMatchObject({
    cueValue: { label: 'bunch' },
    dimension: 'called',
    call: { label: 'run' },
    direction: 'more',
    plays: 40,
    count: 36,
    playsWithout: 120,
    countWithout: 40,
    shareWith: 0.9,
    games: 4,
    gamesSeen: 4,
    oneGameOnly: false,
    seconds: { median: 6, fewest: 6, plays: 40, atLeast: false },
    method: 'Cochran-Mantel-Haenszel with continuity correction',
    restates: false,
  });
  expect(found[0]?.shareWithout).toBeCloseTo(1 / 3, 12);
  expect(found[0]?.difference).toBeCloseTo(0.9 - 1 / 3, 12);
  expect(found[0]?.adjustedPValue).toBeLessThanOrEqual(0.1);
  expect(found[0]?.evidence.references()).toHaveLength(36);
  expect(found[0]?.exceptions.references(2)).toEqual([
    { chartIndex: 0, playNumber: 1 },
    { chartIndex: 1, playNumber: 1 },
  ]);
  expect(tested).toMatchObject({ plays: 160, games: 4, withoutSituation: 0, families: 1, calls: 1 });
});

it('counts complementary calls and complementary cue values once', () => {
  // Two formations, run and pass: four statements, one hypothesis.
  expect(report(gamesOf(bunchRuns(4))).tested).toMatchObject({ families: 1, calls: 1, cueValues: 1 });
});

it('flags what was seen in one game only, and gives it no interval', () => {
  const [first = [], ...others] = bunchRuns(5);
  const plain = others.map((game) => game.map((play): PlaySketch => ({ ...play, formation: 'pro' })));
  const found = report(gamesOf([[...first, ...first, ...first], ...plain])).tells;
  expect(found[0]).toMatchObject({ oneGameOnly: true, games: 1, gamesSeen: 1, interval: null });
});

it('takes no word of an unknown: half of the calls uncharted leaves the other half', () => {
  const games = bunchRuns(8).map((game) =>
    game.map((play, place): PlaySketch => {
      const { called, ...rest } = play;
      return place < 20 && called !== undefined ? { ...rest, called } : rest;
    }),
  );
  expect(report(gamesOf(games)).tells[0]).toMatchObject({ plays: 40, playsWithout: 120 });
});

it('leaves out plays without a situation, and says how many', () => {
  const games = bunchRuns(4).map(([first, ...others]) => {
    const { down, ...rest } = first ?? {};
    return down === undefined ? others : [rest, ...others];
  });
  expect(report(gamesOf(games)).tested).toMatchObject({ plays: 156, withoutSituation: 4 });
});

it('does not take for a tell what the definition of the direction makes of the strength', () => {
  const strengths = ['left', 'right', 'balanced'];
  const sides = ['left', 'middle', 'right'];
  const games = bunchRuns(8, (place) => ({
    called: place % 8 < 4 ? 'run' : 'pass',
    formation: place % 5 === 0 ? 'bunch' : 'pro',
    strength: strengths[place % 3] ?? 'left',
    designedSide: sides[(place * 7 + Math.floor(place / 9)) % 3] ?? 'left',
  }));
  const { search } = report(gamesOf(games));
  const ofStrength = search.families.filter(({ leveledCue }) => leveledCue.cue.names.includes('strength'));
  expect(ofStrength.map(({ leveledDimension }) => leveledDimension.dimension)).not.toContain('direction');
});

it('finds what a shell gives away', () => {
  const games = Array.from({ length: 6 }, () =>
    Array.from({ length: 40 }, (_, place): PlaySketch => ({
      ...SECOND_AND_LONG,
      shell: place % 4 === 0 ? 'no-deep-safety' : 'two-high',
      rushers: place % 4 === 0 ? 6 : place % 10 === 1 ? 5 : 4,
    })),
  );
  const found = report(gamesOf(games), 'defense').tells;
  expect(found.map(({ dimension }) => dimension)).toContain('pressure');
  expect(found[0]?.cue.names).toEqual(['shell']);
});

it('answers for a player without plays with no tells and no leads', () => {
  const result = report(gamesOf([]));
  expect(result).toMatchObject({ tells: [], tested: { plays: 0, games: 0, families: 0, calls: 0 } });
  expect(leads(result, 3)).toEqual([]);
});

it('gives leads with their counts for thirty half-filled plays', () => {
  const [game = []] = bunchRuns(1);
  const thin = game.slice(0, 30).map((play, place): PlaySketch => {
    const { formation = 'pro', ...rest } = play;
    return place % 7 === 6 ? rest : { ...rest, formation: place < 14 ? 'bunch' : formation };
  });
  const result = report(gamesOf([thin]));
  expect(result.tells).toEqual([]);
  const [lead] = leads(result, 3);
  expect(lead).toMatchObject({ status: 'unproven', rank: 1, oneGameOnly: true, interval: null });
  expect(lead?.plays).toBeLessThan(30);
});

it('refuses levels and confidences outside (0, 1)', () => {
  const input = { plays: gamesOf([]), side: 'offense', vocabulary: starterVocabulary() } as const;
  const refused = expect.objectContaining({ code: 'stats.invalid_probability' });
  expect(() => tells({ ...input, confidence: 0.9, level: 0 })).toThrow(refused);
  expect(() => tells({ ...input, confidence: 1, level: 0.1 })).toThrow(refused);
});
