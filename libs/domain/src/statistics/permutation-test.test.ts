import { elementAt } from './element-at.js';
import { fisherExactTest } from './fisher-exact-test.js';
import { permutationTest, type Exchange } from './permutation-test.js';
import { seededRandom } from './seeded-random.js';

const matchesOf =
  (outcomes: readonly boolean[]) =>
  (labels: readonly boolean[]): number =>
    labels.filter((label, index) => label && elementAt(outcomes, index)).length;

describe('permutation test', () => {
  // Fisher (1935), The Design of Experiments: with three of four cups right chance does as well in 17 of 70 orders.
  it('comes to the exact value of the tea tasting', () => {
    const poured = [true, true, true, true, false, false, false, false];
    const named = [true, true, true, false, true, false, false, false];
    const permutations = 20_000;
    const { observed, pValue } = permutationTest(
      named,
      matchesOf(poured),
      { exchange: 'any', clusters: [], permutations },
      seededRandom(121),
    );
    const exact = fisherExactTest([
      [3, 1],
      [1, 3],
    ]).greater;
    expect(observed).toBe(3);
    // Four standard errors of a share of 17/70.
    expect(Math.abs(pValue - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / permutations));
  });

  it('never says 0', () => {
    const labels = Array.from({ length: 40 }, (_, index) => index < 20);
    const { pValue } = permutationTest(
      labels,
      matchesOf(labels),
      { exchange: 'any', clusters: [], permutations: 99 },
      seededRandom(122),
    );
    expect(pValue).toBe(0.01);
  });

  it('says 1 where every order gives the same', () => {
    const { pValue } = permutationTest(
      [1, 2, 3],
      (labels) => labels.reduce((sum, label) => sum + label, 0),
      { exchange: 'any', clusters: [], permutations: 50 },
      seededRandom(123),
    );
    expect(pValue).toBe(1);
  });

  it('keeps what does not move', () => {
    const labels = ['a', 'a', 'b', 'b', 'c', 'c'];
    const clusters = ['one', 'one', 'two', 'two', 'three', 'three'];
    const seen = (exchange: Exchange): string[] => {
      const orders: string[] = [];
      permutationTest(
        labels,
        (order) => orders.push(order.join('')),
        { exchange, clusters, permutations: 200 },
        seededRandom(124),
      );
      return [...new Set(orders)].sort();
    };
    expect(seen('within-cluster')).toEqual(['aabbcc']);
    expect(seen('whole-cluster')).toEqual(['aabbcc', 'aaccbb', 'bbaacc', 'bbccaa', 'ccaabb', 'ccbbaa']);
    expect(seen('any').length).toBeGreaterThan(50);
  });

  // Ten games of twenty plays; the outcome follows the game, and so does the label, independently of each other.
  it('is calibrated where games differ and labels belong to games, and only when they move with them', () => {
    const random = seededRandom(125);
    const repeats = 200;
    let foundByGame = 0;
    let foundByPlay = 0;
    for (let repeat = 0; repeat < repeats; repeat += 1) {
      const games = Array.from({ length: 10 }, (_, game) => ({
        name: `game ${game}`,
        label: game < 5,
        rate: random(),
      }));
      const plays = games.flatMap((game) =>
        Array.from({ length: 20 }, () => ({ ...game, outcome: random() < game.rate })),
      );
      const run = (exchange: Exchange): number =>
        permutationTest(
          plays.map(({ label }) => label),
          matchesOf(plays.map(({ outcome }) => outcome)),
          { exchange, clusters: plays.map(({ name }) => name), permutations: 99 },
          random,
        ).pValue;
      if (run('whole-cluster') <= 0.1) foundByGame += 1;
      if (run('any') <= 0.1) foundByPlay += 1;
    }
    // The standard error of a tenth over 200 repeats is 0.021.
    expect(foundByGame / repeats).toBeLessThan(0.1 + 3 * 0.021);
    expect(foundByGame / repeats).toBeGreaterThan(0.1 - 3 * 0.021);
    expect(foundByPlay / repeats).toBeGreaterThan(0.2);
  });

  const plan = { exchange: 'whole-cluster' as const, clusters: ['one', 'one'], permutations: 9 };
  it.each([
    ['stats.invalid_shape', () => permutationTest([1], () => 0, plan, seededRandom(1))],
    ['stats.invalid_shape', () => permutationTest([1, 1, 1], () => 0, plan, seededRandom(1))],
    ['stats.invalid_shape', () => permutationTest([1, 2], () => 0, plan, seededRandom(1))],
    ['stats.invalid_count', () => permutationTest([1, 1], () => 0, { ...plan, permutations: 0 }, seededRandom(1))],
    ['stats.undefined_statistic', () => permutationTest([1, 1], () => Number.NaN, plan, seededRandom(1))],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
