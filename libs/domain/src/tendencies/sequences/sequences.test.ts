import fc from 'fast-check';
import { gatherPlays } from '../../charting/play-columns.js';
import { PLAY_FIELDS } from '../../charting/play-fields.js';
import { starterVocabulary } from '../../charting/vocabulary.js';
import { chartOf, type PlaySketch } from '../../football/testing/chart-of.js';
import { seededRandom } from '../../statistics/seeded-random.js';
import { wilsonInterval } from '../../statistics/wilson-interval.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../classify-plays.js';
import type { TendencyPlays } from '../tendency-plays.js';
import type { AskedPlays } from '../decisions/asked-plays.js';
import { matchTest } from './match-test.js';
import { openers } from './openers.js';
import { orderDependence } from './order-dependence.js';
import { reactions, type ReactionValue } from './reactions.js';
import { repeatHabits } from './repeat-habits.js';
import { previousSnaps } from './successive-snaps.js';
import { simulatedCaller, type CallerSettings } from './testing/simulated-caller.js';

const VOCABULARY = starterVocabulary();

function factsOf(sketches: readonly PlaySketch[]): TendencyPlays {
  return classifyPlays(chartOf(sketches), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
}

function asked(facts: TendencyPlays, field: AskedPlays['field'] = null): AskedPlays {
  return { facts, field, player: -1, vocabulary: VOCABULARY, confidence: 0.9 };
}

const RUN: PlaySketch = { quarter: 1, drive: 1, down: 1, distance: 10, yardsToGoal: 60, callFamily: 'run' };

describe('snaps that follow each other', () => {
  it('are joined inside a drive, over a kneel, and over nothing that is missing', () => {
    const facts = factsOf([
      RUN,
      { ...RUN, playType: 'kneel', callFamily: 'kneel' },
      RUN,
      { ...RUN, order: 9 },
      { ...RUN, drive: 2, order: 10 },
    ]);
    expect([...previousSnaps(facts, 'drive')]).toEqual([-1, -1, 0, -1, -1]);
    expect([...previousSnaps(facts, 'half')]).toEqual([-1, -1, 0, 2, 3]);
  });

  it('are never joined over a half, nor where drive or quarter is unknown', () => {
    const facts = factsOf([
      { ...RUN, quarter: 2 },
      { ...RUN, quarter: 3, drive: 2 },
    ]);
    expect([...previousSnaps(facts, 'half')]).toEqual([-1, -1]);
    const bare: PlaySketch = { down: 1, distance: 10, yardsToGoal: 60, callFamily: 'run' };
    expect([...previousSnaps(factsOf([bare, bare]), 'drive')]).toEqual([-1, -1]);
    expect([...previousSnaps(factsOf([bare, bare]), 'half')]).toEqual([-1, -1]);
  });
});

describe('test of matches', () => {
  const counts = fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 3, maxLength: 3 });

  it('has the mean and variance of all pairings, counted one by one', () => {
    fc.assert(
      fc.property(counts, counts, (first, second) => {
        const begin = first.flatMap((count, value) => new Array<number>(count).fill(value)).slice(0, 5);
        const end = second.flatMap((count, value) => new Array<number>(count).fill(value)).slice(0, begin.length);
        const from = begin.slice(0, end.length);
        const tally = (values: readonly number[]): number[] =>
          [0, 1, 2].map((v) => values.filter((x) => x === v).length);
        const test = matchTest([{ first: tally(from), second: tally(end), matches: 0 }]);
        const matches = orders(end).map((order) => order.filter((value, at) => value === from[at]).length);
        const mean = matches.reduce((sum, value) => sum + value, 0) / matches.length;
        const variance = matches.reduce((sum, value) => sum + (value - mean) ** 2, 0) / matches.length;
        if (test === null) expect(variance).toBeCloseTo(0, 9);
        else {
          expect(test.expected).toBeCloseTo(mean, 9);
          expect(test.variance).toBeCloseTo(variance, 9);
        }
      }),
    );
  });
});

function orders(values: readonly number[]): number[][] {
  if (values.length === 0) return [[]];
  return values.flatMap((value, at) => orders(values.toSpliced(at, 1)).map((rest) => [value, ...rest]));
}

describe('openers', () => {
  it('list the first snaps of the game and of the second half, with counts against later snaps', () => {
    const facts = factsOf([
      RUN,
      { ...RUN, callFamily: 'screen' },
      RUN,
      { ...RUN, quarter: 3, drive: 5, callFamily: 'quick-pass' },
    ]);
    const [game, second] = openers(asked(facts), 'callFamily', 2);
    expect(game?.games[0]?.snaps.map(({ value }) => value?.label)).toEqual(['run', 'screen']);
    expect(game?.values[0]?.share).toMatchObject({ count: 1, known: 2 });
    expect(game?.values[0]?.later).toEqual({ count: 1, known: 2 });
    expect(second?.games[0]?.snaps.map(({ value }) => value?.label)).toEqual(['quick pass']);
    expect(second?.byPosition[0]?.[0]?.share.evidence.references()).toEqual([{ chartIndex: 0, playNumber: 4 }]);
    expect(second?.byPosition[1]).toEqual([]);
  });

  it('are not told where a snap of unknown quarter comes before', () => {
    const facts = factsOf([{ down: 1, distance: 10, callFamily: 'run' }, RUN]);
    expect(openers(asked(facts), 'callFamily', 2).flatMap(({ games }) => games)).toEqual([]);
  });

  it('refuse to list none', () => {
    expect(() => openers(asked(factsOf([])), 'callFamily', 0)).toThrow(
      expect.objectContaining({ code: 'stats.invalid_count' }),
    );
  });
});

describe('repeats, reactions and order on a few snaps', () => {
  it('count what they saw and cite it', () => {
    const facts = factsOf([
      { ...RUN, yardsGained: 5, snapResult: 'rushed' },
      { ...RUN, down: 2, distance: 5, yardsToGoal: 55, yardsGained: 1, snapResult: 'rushed' },
      { ...RUN, down: 3, distance: 4, yardsToGoal: 54, callFamily: 'screen', snapResult: 'sacked', yardsGained: -6 },
    ]);
    const [success, failure] = repeatHabits(asked(facts), 'callFamily');
    expect(success?.repeated).toMatchObject({ count: 1, known: 1 });
    expect(success?.repeated.evidence.places()).toEqual([1]);
    expect(failure?.repeated).toMatchObject({ count: 0, known: 1 });
    expect(success?.test).toBeNull();
    expect(reactions(asked(facts), 'callFamily').map(({ snaps }) => snaps)).toEqual([0, 0, 0]);
  });

  it('say nothing of a player without plays', () => {
    const nobody = asked(factsOf([]));
    expect(repeatHabits(nobody, 'callFamily').map(({ repeated }) => repeated.raw)).toEqual([null, null]);
    expect(reactions(nobody, 'called').flatMap(({ values }) => values)).toEqual([]);
    expect(orderDependence(nobody, 'called')).toMatchObject({ situations: [], overall: null });
  });

  it('find the answer to a turnover on the next drive, and hold it against the field', () => {
    const facts = factsOf([
      { ...RUN, snapResult: 'intercepted' },
      { ...RUN, drive: 3, order: 8, callFamily: 'screen' },
    ]);
    const field = { facts, playerOf: Int32Array.of(4, 4) };
    const turnover = reactions(asked(facts, field), 'callFamily').find(({ event }) => event === 'turnover');
    expect(turnover).toMatchObject({ snaps: 1, known: 1 });
    expect(turnover?.values[0]?.share).toMatchObject({ count: 1, known: 1, field: { count: 1, known: 1 } });
  });
});

/** Share of leagues in which something happened, with the upper bound of its 95 % Monte Carlo interval. */
function rate(found: readonly boolean[]): { share: number; upper: number } {
  const count = found.filter(Boolean).length;
  return { share: count / found.length, upper: wilsonInterval(count, found.length, 0.95).upper };
}

function leagueOf(players: readonly TendencyPlays[]): { facts: TendencyPlays; playerOf: Int32Array } {
  const plays = gatherPlays(
    players.map((facts) => ({ plays: facts.plays, offense: 'both' })),
    PLAY_FIELDS.map(({ name }) => name),
    (id) => id,
  );
  const playerOf = Int32Array.from(
    players.flatMap(({ plays: own }, player) => new Array<number>(own.count).fill(player)),
  );
  return { facts: classifyPlays(plays, VOCABULARY, DEFAULT_FOOTBALL_SETTINGS), playerOf };
}

describe('in simulated leagues', () => {
  const BASE: CallerSettings = {
    games: 6,
    snapsAGame: 40,
    planConcentration: 20,
    repeatAfterSuccess: 0,
    screenAfterSack: 0,
  };
  const LEVEL = 0.05;
  const callers = new Map<string, TendencyPlays>();
  const callerOf = (settings: CallerSettings, seed: number): TendencyPlays => {
    const key = `${JSON.stringify(settings)}/${seed}`;
    const caller = callers.get(key) ?? simulatedCaller(seededRandom(seed), settings);
    callers.set(key, caller);
    return caller;
  };
  /** For each league drawn whether a question finds something in it. */
  const found = (
    settings: CallerSettings,
    seeds: { readonly from: number; readonly leagues: number },
    question: (asked: AskedPlays) => boolean,
    field: AskedPlays['field'] = null,
  ): { share: number; upper: number } =>
    rate(
      Array.from({ length: seeds.leagues }, (_, league) =>
        question(asked(callerOf(settings, seeds.from + league), field)),
      ),
    );
  const repeats = (question: AskedPlays, after: 'success' | 'failure'): boolean => {
    const habit = repeatHabits(question, 'callFamily').find((one) => one.after === after);
    return (habit?.test?.pValue ?? 1) < LEVEL;
  };
  const depends = (question: AskedPlays): boolean =>
    (orderDependence(question, 'callFamily').overall?.pValue ?? 1) < LEVEL;
  const screens = (question: AskedPlays): ReactionValue | undefined =>
    reactions(question, 'callFamily')
      .find(({ event }) => event === 'sack')
      ?.values.find(({ value }) => value.label === 'screen');

  it('plans and situations alone make no repeat, reaction or order', () => {
    const seeds = { from: 40_000, leagues: 250 };
    const rates = {
      afterSuccess: found(BASE, seeds, (question) => repeats(question, 'success')),
      afterFailure: found(BASE, seeds, (question) => repeats(question, 'failure')),
      screen: found(BASE, { ...seeds, leagues: 60 }, (question) => (screens(question)?.pValue ?? 1) < LEVEL),
      order: found(BASE, seeds, depends),
    };
    console.log('sequences, nothing planted, found at 5 %:', JSON.stringify(rates));
    for (const { upper } of Object.values(rates)) expect(upper).toBeLessThanOrEqual(0.12);
  });

  it('a planted repeat after success and a planted screen after a sack are found', () => {
    const repeater = { ...BASE, repeatAfterSuccess: 0.4 };
    const screener = { ...BASE, screenAfterSack: 0.5 };
    const field = leagueOf(
      Array.from({ length: 6 }, (_, player) => simulatedCaller(seededRandom(30_000 + player), BASE)),
    );
    const seeds = { from: 50_000, leagues: 60 };
    const rates = {
      repeat: found(repeater, seeds, (question) => repeats(question, 'success')),
      order: found(repeater, seeds, depends),
      screen: found(screener, seeds, (question) => (screens(question)?.pValue ?? 1) < LEVEL),
      screenOffField: found(screener, seeds, (question) => (screens(question)?.fieldPValue ?? 1) < LEVEL, field),
    };
    console.log('sequences, repeat of 40 % and screen of 50 % planted, found:', JSON.stringify(rates));
    expect(rates.repeat.share).toBeGreaterThanOrEqual(0.8);
    expect(rates.screenOffField.share).toBeGreaterThanOrEqual(0.7);
  });

  it('what the player does anyway is an unbiased guess of repeats where nothing is planted', () => {
    let [repeated, expected] = [0, 0];
    for (let league = 0; league < 100; league += 1) {
      const facts = simulatedCaller(seededRandom(70_000 + league), { ...BASE, planConcentration: Infinity });
      for (const { repeated: share, anyway, expectedOf } of repeatHabits(asked(facts), 'callFamily')) {
        repeated += share.count;
        expected += (anyway ?? 0) * expectedOf;
      }
    }
    console.log(`repeats without plans: ${repeated} seen, ${expected.toFixed(0)} expected`);
    expect(Math.abs(repeated / expected - 1)).toBeLessThan(0.03);
  });
});
