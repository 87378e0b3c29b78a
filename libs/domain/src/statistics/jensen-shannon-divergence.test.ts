import fc from 'fast-check';
import { jensenShannonDivergenceBits } from './jensen-shannon-divergence.js';

const KEPT_DIGITS = 1e-10;

describe('Jensen-Shannon divergence', () => {
  // R 4.2.2, m = (p + q) / 2; (KL(p, m) + KL(q, m)) / 2. SciPy's documentation prints 1.0 for the disjoint pair and
  // 0.46450140402245893, the square root in nats, for the first.
  it.each([
    { first: [1, 0], second: [0.5, 0.5], bits: 0.311278124459 },
    { first: [1, 0, 0], second: [0, 1, 0], bits: 1 },
    { first: [0.6, 0.4], second: [0.3, 0.7], bits: 0.0666537071451 },
    { first: [0.5, 0.3, 0.2], second: [0.2, 0.3, 0.5], bits: 0.0958156020034 },
  ])('is $bits bits between $first and $second', ({ first, second, bits }) => {
    expect(Math.abs(jensenShannonDivergenceBits(first, second) - bits)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  it('agrees with the square root in nats that SciPy prints', () => {
    const nats = jensenShannonDivergenceBits([1, 0], [0.5, 0.5]) * Math.LN2;
    expect(Math.abs(Math.sqrt(nats) - 0.46450140402245893)).toBeLessThanOrEqual(1e-12);
  });

  // R 4.2.2: rows 18, 12 and 3, 7 of a count table, weighted by their sizes, give its mutual information.
  it('is the mutual information of a table when weighted by its rows', () => {
    const bits = jensenShannonDivergenceBits([0.6, 0.4], [0.3, 0.7], 0.75);
    expect(Math.abs(bits - 0.0496602083941)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const mixes = fc
    .array(fc.integer({ min: 0, max: 30 }), { minLength: 4, maxLength: 4 })
    .filter((counts) => counts.some((count) => count > 0))
    .map((counts) => {
      const sum = counts.reduce((total, count) => total + count, 0);
      return counts.map((count) => count / sum);
    });

  it('is symmetric, 0 only between equal mixes, and never above 1', () => {
    fc.assert(
      fc.property(mixes, mixes, (first, second) => {
        const bits = jensenShannonDivergenceBits(first, second);
        expect(jensenShannonDivergenceBits(second, first)).toBeCloseTo(bits, 12);
        expect(bits).toBeLessThanOrEqual(1);
        const differ = first.some((share, index) => Math.abs(share - (second[index] ?? 0)) > 1e-9);
        expect(bits > 1e-12).toBe(differ);
      }),
    );
  });

  it('obeys the triangle inequality in its square root', () => {
    fc.assert(
      fc.property(mixes, mixes, mixes, (first, second, third) => {
        const distance = (left: readonly number[], right: readonly number[]): number =>
          Math.sqrt(jensenShannonDivergenceBits(left, right));
        // The square root of rounding near 0 is 1e-8.
        expect(distance(first, third)).toBeLessThanOrEqual(distance(first, second) + distance(second, third) + 1e-7);
      }),
    );
  });

  it.each([
    ['stats.invalid_probability', () => jensenShannonDivergenceBits([0.5, 0.4], [0.5, 0.5])],
    ['stats.invalid_shape', () => jensenShannonDivergenceBits([1], [0.5, 0.5])],
    ['stats.invalid_probability', () => jensenShannonDivergenceBits([1], [1], 1)],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
