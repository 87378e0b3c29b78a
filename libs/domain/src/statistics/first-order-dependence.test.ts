import fc from 'fast-check';
import { firstOrderDependenceTest, transitionCounts } from './first-order-dependence.js';
import { fisherExactTest } from './fisher-exact-test.js';
import { seededRandom } from './seeded-random.js';

const digits = (text: string): number[] => Array.from(text, Number);

describe('first-order dependence', () => {
  // Rain on Alofi, 1096 days in three states: Avery & Henderson (1999), Applied Statistics 48, 53–61; counts from
  // the archived series, statistics from R 4.2.2.
  it('agrees with R on three years of rain', () => {
    const { pearson, g, degreesOfFreedom } = firstOrderDependenceTest([
      [362, 126, 60],
      [136, 90, 68],
      [50, 79, 124],
    ]);
    expect(Math.abs(pearson - 190.61)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(g - 192.0736)).toBeLessThanOrEqual(0.005);
    expect(degreesOfFreedom).toBe(4);
  });

  // R 4.2.2: chisq.test(T, correct = FALSE) and fisher.test(T) on the pairs of a twenty-letter sequence.
  it('agrees with R on twenty calls', () => {
    const transitions = transitionCounts([digits('01101001110101001011')], 2);
    expect(transitions).toEqual([
      [2, 7],
      [6, 4],
    ]);
    const { pearson, pearsonPValue } = firstOrderDependenceTest(transitions);
    expect(Math.abs(pearson - 2.773232323)).toBeLessThanOrEqual(1e-9);
    expect(Math.abs(pearsonPValue - 0.09585242561)).toBeLessThanOrEqual(1e-9);
    expect(
      Math.abs(
        fisherExactTest([
          [2, 7],
          [6, 4],
        ]).twoSided - 0.1698023339,
      ),
    ).toBeLessThanOrEqual(1e-9);
  });

  it('makes no pair across sequences', () => {
    expect(transitionCounts([[0, 1], [0], [], [1, 1]], 2)).toEqual([
      [0, 1],
      [0, 1],
    ]);
  });

  it('counts one pair less than each sequence is long', () => {
    fc.assert(
      fc.property(fc.array(fc.array(fc.nat(3))), (sequences) => {
        const pairs = transitionCounts(sequences, 4)
          .flat()
          .reduce((sum, count) => sum + count, 0);
        expect(pairs).toBe(sequences.reduce((sum, sequence) => sum + Math.max(0, sequence.length - 1), 0));
      }),
    );
  });

  it('drops categories that never occur', () => {
    const { degreesOfFreedom, pearson } = firstOrderDependenceTest([
      [2, 0, 7],
      [0, 0, 0],
      [6, 0, 4],
    ]);
    expect(degreesOfFreedom).toBe(1);
    expect(pearson).toBeCloseTo(2.773232323, 8);
  });

  it('finds something in a tenth of sequences without dependence', () => {
    const random = seededRandom(131);
    const repeats = 1000;
    let found = 0;
    for (let repeat = 0; repeat < repeats; repeat += 1) {
      const sequences = Array.from({ length: 6 }, () => Array.from({ length: 40 }, () => Math.floor(3 * random())));
      if (firstOrderDependenceTest(transitionCounts(sequences, 3)).pearsonPValue <= 0.1) found += 1;
    }
    // Four standard errors of a tenth over 1000 repeats.
    expect(Math.abs(found / repeats - 0.1)).toBeLessThan(0.038);
  });

  it.each([
    ['stats.invalid_count', () => transitionCounts([[0, 2]], 2)],
    ['stats.invalid_count', () => transitionCounts([], 1)],
    [
      'stats.invalid_shape',
      () =>
        firstOrderDependenceTest([
          [1, 2, 3],
          [4, 5, 6],
        ]),
    ],
    ['stats.invalid_shape', () => firstOrderDependenceTest([[1]])],
    [
      'stats.undefined_statistic',
      () =>
        firstOrderDependenceTest([
          [3, 0],
          [0, 0],
        ]),
    ],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
