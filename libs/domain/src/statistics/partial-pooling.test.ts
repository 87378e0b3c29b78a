import fc from 'fast-check';
import { drawNormal } from './draw-gamma.js';
import { elementAt } from './element-at.js';
import { partialPooling } from './partial-pooling.js';
import { seededRandom } from './seeded-random.js';

// Vaccine trials of Colditz et al. (1994), log odds ratios; counts are cases and others, treated then control.
// Van Houwelingen, Arends & Stijnen (2002), Stat. Med. 21, 589–624; digits by SciPy 1.17, minimising the profile likelihood.
const TRIALS = [
  [4, 119, 11, 128],
  [6, 300, 29, 274],
  [3, 228, 11, 209],
  [62, 13536, 248, 12619],
  [33, 5036, 47, 5761],
  [180, 1361, 372, 1079],
  [8, 2537, 10, 619],
  [505, 87886, 499, 87892],
  [29, 7470, 45, 7232],
  [17, 1699, 65, 1600],
  [186, 50448, 141, 27197],
  [5, 2493, 3, 2338],
  [27, 16886, 29, 17825],
].map(([a = 0, b = 0, c = 0, d = 0]) => ({
  value: Math.log((a * d) / (b * c)),
  standardError: Math.sqrt(1 / a + 1 / b + 1 / c + 1 / d),
}));

// Coaching in eight schools: Rubin (1981), J. Educ. Stat. 6, 377–400; Gelman et al. (2013), Bayesian Data Analysis,
// 3rd ed., 5.5, prints the pooled estimate 7.7 and its standard error 4.1.
const SCHOOLS = [
  [28, 15],
  [8, 10],
  [-3, 16],
  [7, 11],
  [-1, 9],
  [1, 11],
  [18, 10],
  [12, 18],
].map(([value = 0, standardError = 0]) => ({ value, standardError }));

describe('partial pooling', () => {
  it('finds the between-trial variance that maximises the likelihood', () => {
    const { mean, meanStandardError, betweenVariance } = partialPooling(TRIALS);
    expect(Math.abs(betweenVariance - 0.3024565723979731)).toBeLessThanOrEqual(1e-7);
    expect(Math.abs(mean - -0.7419668303324359)).toBeLessThanOrEqual(1e-7);
    expect(Math.abs(meanStandardError - 0.1779533706469625)).toBeLessThanOrEqual(1e-7);
  });

  it('pools the eight schools completely', () => {
    const pooling = partialPooling(SCHOOLS);
    expect(pooling.betweenVariance).toBe(0);
    expect(Math.abs(pooling.mean - 7.685616724956035)).toBeLessThanOrEqual(1e-9);
    expect(Math.abs(pooling.meanStandardError - 4.071919158402296)).toBeLessThanOrEqual(1e-9);
    expect(pooling.groups.every(({ weight }) => weight === 0)).toBe(true);
  });

  it('pulls each value towards the mean, the uncertain ones further', () => {
    const { mean, groups } = partialPooling(TRIALS);
    for (const [index, { estimate, weight }] of groups.entries()) {
      const { value, standardError } = elementAt(TRIALS, index);
      expect(estimate).toBeCloseTo(mean + weight * (value - mean), 12);
      expect(weight).toBeCloseTo(0.3024565723979731 / (0.3024565723979731 + standardError ** 2), 6);
    }
  });

  it('recovers what many groups were drawn from', () => {
    const random = seededRandom(111);
    const drawn = Array.from({ length: 2000 }, (_, index) => {
      const standardError = 0.5 + (index % 4) / 2;
      return { value: 3 + 0.8 * drawNormal(random) + standardError * drawNormal(random), standardError };
    });
    const { mean, betweenVariance } = partialPooling(drawn);
    // Standard errors near 0.03 and 0.05.
    expect(Math.abs(mean - 3)).toBeLessThan(0.12);
    expect(Math.abs(betweenVariance - 0.64)).toBeLessThan(0.2);
  });

  const groupLists = fc.array(
    fc.record({
      value: fc.double({ min: -20, max: 20, noNaN: true }),
      standardError: fc.double({ min: 0.2, max: 5, noNaN: true }),
    }),
    { minLength: 2, maxLength: 12 },
  );

  it('is not beaten by any other between-group variance', () => {
    const likelihood = (groups: readonly { value: number; standardError: number }[], between: number): number => {
      const weights = groups.map(({ standardError }) => 1 / (between + standardError ** 2));
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      const mean = groups.reduce((sum, { value }, index) => sum + value * elementAt(weights, index), 0) / total;
      return groups.reduce((sum, { value }, index) => {
        const weight = elementAt(weights, index);
        return sum + (Math.log(weight) - weight * (value - mean) ** 2) / 2;
      }, 0);
    };
    fc.assert(
      fc.property(groupLists, fc.double({ min: 0, max: 400, noNaN: true }), (groups, rival) => {
        const { betweenVariance } = partialPooling(groups);
        expect(likelihood(groups, rival)).toBeLessThanOrEqual(likelihood(groups, betweenVariance) + 1e-6);
      }),
    );
  });

  it('does not feel where 0 lies or which unit is used', () => {
    fc.assert(
      fc.property(groupLists, (groups) => {
        const pooling = partialPooling(groups);
        const changed = partialPooling(
          groups.map(({ value, standardError }) => ({ value: 10 * value + 4, standardError: 10 * standardError })),
        );
        expect(changed.mean).toBeCloseTo(10 * pooling.mean + 4, 3);
        expect(changed.betweenVariance / 100).toBeCloseTo(pooling.betweenVariance, 3);
      }),
    );
  });

  it.each([
    ['stats.invalid_shape', [{ value: 1, standardError: 1 }]],
    [
      'stats.invalid_number',
      [
        { value: 1, standardError: 1 },
        { value: 2, standardError: 0 },
      ],
    ],
    [
      'stats.invalid_number',
      [
        { value: 1, standardError: 1 },
        { value: Number.NaN, standardError: 1 },
      ],
    ],
  ])('refuses with %s: %j', (code, groups) => {
    expect(() => partialPooling(groups)).toThrow(expect.objectContaining({ code }));
  });
});
