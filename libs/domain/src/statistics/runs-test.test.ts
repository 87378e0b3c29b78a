import fc from 'fast-check';
import { runsTest, runsTestOf } from './runs-test.js';

const KEPT_DIGITS = 1e-9;
const kinds = (text: string, first: string): boolean[] => Array.from(text, (letter) => letter === first);

describe('runs test', () => {
  // Density of the earth, around its median of 5.46, which is left out: Brownlee (1965), Statistical Theory and
  // Methodology, 223; R: tseries::runs.test prints -1.7477 and 0.08051; exact values from the distribution written out.
  it('agrees with R on the density of the earth', () => {
    const density = [
      5.36, 5.29, 5.58, 5.65, 5.57, 5.53, 5.62, 5.29, 5.44, 5.34, 5.79, 5.1, 5.27, 5.39, 5.42, 5.47, 5.63, 5.34, 5.46,
      5.3, 5.75, 5.68, 5.85,
    ];
    const result = runsTest(density.filter((value) => value !== 5.46).map((value) => value > 5.46));
    expect(result.runs).toBe(8);
    expect(result.mean).toBeCloseTo(12, 12);
    expect(Math.abs(result.variance - 5.2380952381)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.z - -1.74772579501)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.normalPValue - 0.08051151994)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.exact.fewer - 0.06346749226)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.exact.twoSided - 0.12693498452)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  // Siegel (1956), Nonparametric Statistics, ch. 4 (method); strings of the help page of the R package DescTools; R 4.2.2.
  it('agrees with R on short strings', () => {
    const nine = runsTest(kinds('SSTSTTTST', 'S'));
    expect(nine.runs).toBe(6);
    expect(Math.abs(nine.z - 0.40160966445)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(nine.exact.fewer - 0.78571428571)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(nine.exact.more).toBeCloseTo(0.5, 10);
    const ten = runsTest(kinds('1111000011', '1'));
    expect(ten.runs).toBe(3);
    expect(Math.abs(ten.z - -1.96683020432)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(ten.exact.fewer - 0.04761904762)).toBeLessThanOrEqual(KEPT_DIGITS);
    const twenty = runsTest(kinds('01101001110101001011', '1'));
    expect(Math.abs(twenty.z - 1.4395471488)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(twenty.exact.more - 0.1149083115)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  // NIST/SEMATECH e-Handbook 1.3.5.13 prints Z = 2.6938 for a hundred of each kind (quoted from memory); R 4.2.2.
  it('agrees with the formula on a hundred of each kind', () => {
    const { mean, variance, z } = runsTestOf(120, 100, 100);
    expect(mean).toBe(101);
    expect(Math.abs(variance - 49.74874372)).toBeLessThanOrEqual(1e-8);
    expect(Math.abs(z - 2.693782591)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const sequences = fc
    .array(fc.boolean(), { minLength: 2, maxLength: 60 })
    .filter((sequence) => sequence.includes(true) && sequence.includes(false));

  it('does not feel direction nor which kind is called first, and has tails that meet in the observed count', () => {
    fc.assert(
      fc.property(sequences, (sequence) => {
        const result = runsTest(sequence);
        const backwards = runsTest(sequence.map((kind) => !kind).toReversed());
        expect(backwards.runs).toBe(result.runs);
        expect(backwards.exact.twoSided).toBeCloseTo(result.exact.twoSided, 9);
        expect(result.exact.fewer + result.exact.more).toBeGreaterThan(1);
        expect(result.exact.fewer).toBeGreaterThan(0);
      }),
    );
  });

  it('agrees with counting all orders of three and two', () => {
    const orders = [0b11100, 0b11010, 0b11001, 0b10110, 0b10101, 0b10011, 0b01110, 0b01101, 0b01011, 0b00111].map(
      (bits) => [16, 8, 4, 2, 1].map((bit) => (bits & bit) > 0),
    );
    for (const order of orders) {
      const { runs, exact } = runsTest(order);
      const fewer = orders.filter((other) => runsTest(other).runs <= runs).length;
      expect(exact.fewer).toBeCloseTo(fewer / 10, 10);
    }
  });

  it('is certain of two runs of one each', () => {
    expect(runsTest([true, false])).toMatchObject({ z: 0, normalPValue: 1 });
  });

  it.each([[[]], [[true, true]], [[false]]])('refuses %j', (sequence) => {
    expect(() => runsTest(sequence)).toThrow(expect.objectContaining({ code: 'stats.undefined_statistic' }));
  });

  it.each([
    [0, 3, 3],
    [7, 3, 3],
    [2, 1.5, 3],
    [2, 3, -1],
  ])('refuses %d runs of %d and %d', (runs, first, second) => {
    expect(() => runsTestOf(runs, first, second)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});
