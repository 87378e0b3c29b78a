import fc from 'fast-check';
import { countTails, logRisingBend, logRisingSlope, logRisingSum } from './count-tails.js';
import { logGamma } from './distributions.js';

describe('count tails', () => {
  it('count the weight beyond each value', () => {
    expect(countTails([0, 2, 1, 2], [1, 1, 0.5, 2])).toEqual([3.5, 3]);
    expect(countTails([0, 0], [1, 1])).toEqual([]);
    expect(countTails([], [])).toEqual([]);
  });

  const groups = fc.array(fc.tuple(fc.nat(40), fc.double({ min: 0, max: 3, noNaN: true })), { maxLength: 20 });
  const starts = fc.double({ min: 0.05, max: 50, noNaN: true });

  it('give the sum of log gamma differences', () => {
    fc.assert(
      fc.property(groups, starts, (pairs, start) => {
        const tails = countTails(
          pairs.map(([count]) => count),
          pairs.map(([, weight]) => weight),
        );
        const direct = pairs.reduce(
          (sum, [count, weight]) => sum + weight * (logGamma(start + count) - logGamma(start)),
          0,
        );
        expect(logRisingSum(tails, start)).toBeCloseTo(direct, 8);
      }),
    );
  });

  it('have slopes that match differences', () => {
    fc.assert(
      fc.property(starts, (start) => {
        const tails = countTails([3, 7, 0, 1], [1, 1, 1, 0.5]);
        const step = 1e-5 * start;
        const slope = (logRisingSum(tails, start + step) - logRisingSum(tails, start - step)) / (2 * step);
        const bend = (logRisingSlope(tails, start - step) - logRisingSlope(tails, start + step)) / (2 * step);
        expect(logRisingSlope(tails, start) / slope).toBeCloseTo(1, 5);
        expect(logRisingBend(tails, start) / bend).toBeCloseTo(1, 5);
      }),
    );
  });
});
