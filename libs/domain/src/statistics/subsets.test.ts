import fc from 'fast-check';
import { subsetCount, subsets } from './subsets.js';

describe('subsets', () => {
  it('of two out of four are these', () => {
    expect(subsets(4, 2)).toEqual([
      [0, 1],
      [0, 2],
      [0, 3],
      [1, 2],
      [1, 3],
      [2, 3],
    ]);
  });

  // Abramowitz & Stegun (1964), Table 24.1, binomial coefficients.
  it.each([
    [12, 6, 924],
    [20, 10, 184_756],
    [5, 0, 1],
    [0, 0, 1],
  ])('of %d by %d are counted as %d', (from, chosen, ways) => {
    expect(subsetCount(from, chosen)).toBe(ways);
  });

  it('are as many as counted, all different, ascending', () => {
    const sizes = fc.nat({ max: 9 }).chain((from) => fc.tuple(fc.constant(from), fc.nat({ max: from })));
    fc.assert(
      fc.property(sizes, ([from, chosen]) => {
        const all = subsets(from, chosen);
        expect(all).toHaveLength(subsetCount(from, chosen));
        expect(new Set(all.map((one) => one.join())).size).toBe(all.length);
        for (const one of all) expect(one).toEqual([...one].sort((a, b) => a - b));
      }),
    );
  });

  it('of more than there are are refused', () => {
    const refused = expect.objectContaining({ code: 'stats.invalid_count' });
    expect(() => subsets(3, 4)).toThrow(refused);
    expect(() => subsetCount(3, 4)).toThrow(refused);
  });
});
