import type { TwoByTwo } from '../../statistics/two-by-two.js';
import type { CallTable } from './call-tables.js';
import { effectOf } from './effect.js';

const inGames = (tables: readonly TwoByTwo[]): CallTable[] =>
  tables.map((table, game) => ({ game, situation: 0, pool: 0, table }));

/** Eight of ten with the cue, four of ten without it. */
const PLAIN: TwoByTwo = [
  [8, 2],
  [4, 6],
];

it('is the plain difference in a single group, without an interval', () => {
  expect(effectOf(inGames([PLAIN]), 0.9)).toEqual({
    shareWith: 0.8,
    shareWithout: 0.4,
    difference: 0.4,
    interval: null,
    lift: 2,
    games: 1,
  });
});

it('weighs groups by n1 n0 / n, after Greenland and Robins (1985), equation 3', () => {
  const thin: TwoByTwo = [
    [1, 1],
    [0, 6],
  ];
  // Weights 5 and 1.5: (5 × 0.4 + 1.5 × 0.5) / 6.5.
  expect(effectOf(inGames([PLAIN, thin]), 0.9)?.difference).toBeCloseTo(2.75 / 6.5, 12);
});

it('leaves out groups that were seen with the cue only or without it only', () => {
  const alone: TwoByTwo = [
    [9, 0],
    [0, 0],
  ];
  expect(effectOf(inGames([PLAIN, alone]), 0.9)?.difference).toBeCloseTo(0.4, 12);
  expect(effectOf(inGames([alone]), 0.9)).toBeNull();
});

it('has no width where all games agree', () => {
  const interval = effectOf(inGames([PLAIN, PLAIN, PLAIN]), 0.9)?.interval;
  expect(interval?.lower).toBeCloseTo(0.4, 12);
  expect(interval?.upper).toBeCloseTo(0.4, 12);
});

it('is the t interval of the mean where every game weighs the same', () => {
  // With equal weights the jackknife's standard error is the usual one of a mean; t on 9 degrees of freedom at 90 %
  // is 1.833 in any table.
  const differences = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
  const games = differences.map((made): TwoByTwo => [
    [made, 10 - made],
    [0, 10],
  ]);
  const half = (1.833113 * 0.302765) / Math.sqrt(10);
  const interval = effectOf(inGames(games), 0.9)?.interval;
  expect(interval?.lower).toBeCloseTo(0.55 - half, 5);
  expect(interval?.upper).toBeCloseTo(0.55 + half, 5);
});

it('takes situations of one game for one cluster', () => {
  const oneGame = [PLAIN, PLAIN].map((table, situation) => ({ game: 0, situation, pool: situation, table }));
  expect(effectOf(oneGame, 0.9)).toMatchObject({ games: 1, interval: null });
});

it('has no lift where the call is never made without the cue', () => {
  const never: TwoByTwo = [
    [3, 3],
    [0, 6],
  ];
  expect(effectOf(inGames([never]), 0.9)?.lift).toBeNull();
});

it('refuses a confidence outside (0, 1)', () => {
  expect(() => effectOf(inGames([PLAIN]), 1)).toThrow(expect.objectContaining({ code: 'stats.invalid_probability' }));
});
