import fc from 'fast-check';
import { seededRandom } from '../statistics/seeded-random.js';
import { mixedOrder } from './mixed-order.js';

describe('a mix as an order', () => {
  it('calls each as often as its share says, the rest by largest remainders', () => {
    // By hand: of 8 turns 3.6, 2.8 and 1.6 are 3, 2 and 1, and two are left for the remainders .8 and .6 (the first).
    const order = mixedOrder([0.45, 0.35, 0.2], 8, seededRandom(1));
    expect([0, 1, 2].map((call) => order.filter((turn) => turn === call).length)).toEqual([4, 3, 1]);
  });

  it('is the same for the same seed, and as long as it was asked to be', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.nat(1000),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (turns, seed, share) => {
          const order = mixedOrder([share, 1 - share], turns, seededRandom(seed));
          expect(order).toHaveLength(turns);
          expect(Math.abs(order.filter((turn) => turn === 0).length - share * turns)).toBeLessThanOrEqual(1);
          expect(mixedOrder([share, 1 - share], turns, seededRandom(seed))).toEqual(order);
        },
      ),
    );
  });

  it('refuses shares that do not add up, and no turns', () => {
    expect(() => mixedOrder([0.5, 0.4], 8, seededRandom(1))).toThrow(
      expect.objectContaining({ code: 'stats.invalid_probability' }),
    );
    expect(() => mixedOrder([1], 0, seededRandom(1))).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});
