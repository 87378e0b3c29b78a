import fc from 'fast-check';
import { cochranArmitageTrend } from './cochran-armitage-trend.js';
import { elementAt } from './element-at.js';

const groupsOf = (successes: readonly number[], trials: readonly number[]): { successes: number; trials: number }[] =>
  successes.map((count, index) => ({ successes: count, trials: elementAt(trials, index) }));

// Fleiss (1981), Statistical Methods for Rates and Proportions, 139, smokers among patients in four studies; R's
// reference output of prop.trend.test prints 8.2249 and 0.004132, and 12.173 and 0.0004848 for the scores 0, 0, 0, 1.
const SMOKERS = groupsOf([83, 90, 129, 70], [86, 93, 136, 82]);

describe('Cochran-Armitage trend', () => {
  it('agrees with R on four studies', () => {
    const { statistic, pValue, z } = cochranArmitageTrend(SMOKERS, [1, 2, 3, 4]);
    expect(Math.abs(statistic - 8.2249)).toBeLessThanOrEqual(0.5e-4);
    expect(Math.abs(pValue - 0.004132)).toBeLessThanOrEqual(0.5e-6);
    expect(z).toBeLessThan(0);
    const last = cochranArmitageTrend(SMOKERS, [0, 0, 0, 1]);
    expect(Math.abs(last.statistic - 12.173)).toBeLessThanOrEqual(0.5e-3);
    expect(Math.abs(last.pValue - 0.0004848)).toBeLessThanOrEqual(0.5e-7);
  });

  // Armitage (1955), Biometrics 11, 375–386, tonsils and carriers, prints 7.19 and .007; digits from R 4.2.2.
  it('agrees with Armitage on carriers', () => {
    const { statistic, pValue } = cochranArmitageTrend(groupsOf([19, 29, 24], [516, 589, 293]), [-1, 0, 1]);
    expect(Math.abs(statistic - 7.19)).toBeLessThanOrEqual(0.5e-2);
    expect(Math.abs(statistic - 7.1927496)).toBeLessThanOrEqual(1e-6);
    expect(Math.abs(pValue - 0.007319873)).toBeLessThanOrEqual(1e-8);
  });

  // Help page of the R package coin, dose and tumour: 10.715713 by N; the package itself scales by N - 1.
  it('scales by N', () => {
    const { statistic } = cochranArmitageTrend(groupsOf([2, 7, 15], [40, 50, 48]), [0, 1, 2]);
    expect(Math.abs(statistic - 10.715713)).toBeLessThanOrEqual(1e-6);
    expect(Math.abs((statistic * 137) / 138 - 10.638063)).toBeLessThanOrEqual(1e-6);
  });

  it('turns its sign with the scores and with success and failure, and does not feel their scale', () => {
    const groups = fc.array(
      fc
        .integer({ min: 2, max: 40 })
        .chain((trials) =>
          fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 1, max: trials - 1 }) }),
        ),
      { minLength: 2, maxLength: 8 },
    );
    fc.assert(
      fc.property(groups, (list) => {
        const scores = list.map((_, index) => index);
        const { z } = cochranArmitageTrend(list, scores);
        const mirrored = list.map(({ successes, trials }) => ({ successes: trials - successes, trials }));
        expect(
          cochranArmitageTrend(
            list,
            scores.map((score) => 5 - 3 * score),
          ).z,
        ).toBeCloseTo(-z, 9);
        expect(cochranArmitageTrend(mirrored, scores).z).toBeCloseTo(-z, 9);
      }),
    );
  });

  it.each([
    ['stats.invalid_shape', () => cochranArmitageTrend(groupsOf([1], [2]), [1])],
    ['stats.invalid_shape', () => cochranArmitageTrend(SMOKERS, [1, 2])],
    ['stats.invalid_count', () => cochranArmitageTrend(groupsOf([1, 0], [2, 0]), [1, 2])],
    ['stats.invalid_number', () => cochranArmitageTrend(groupsOf([1, 1], [2, 2]), [1, Number.NaN])],
    ['stats.undefined_statistic', () => cochranArmitageTrend(groupsOf([0, 0], [2, 2]), [1, 2])],
    ['stats.undefined_statistic', () => cochranArmitageTrend(groupsOf([1, 0], [2, 2]), [3, 3])],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
