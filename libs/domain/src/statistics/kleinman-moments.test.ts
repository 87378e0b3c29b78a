import fc from 'fast-check';
import { kleinmanMoments } from './kleinman-moments.js';
import { TUMOURS } from './testing/rat-tumours.js';

// Efron & Morris (1975), J. Am. Stat. Assoc. 70, 311–319: 18 batters, hits in their first 45 at-bats.
const HITS = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7];
const KEPT_DIGITS = 1e-8;

describe('Kleinman moments', () => {
  // R 4.2.2, the formulas of Kleinman (1973), J. Am. Stat. Assoc. 68, 46–54, written out.
  it.each([
    {
      weights: 'trials',
      mean: 0.1535365152386,
      overdispersion: 0.0438674347744,
      alpha: 3.3464747352,
      beta: 18.44947869,
    },
    {
      weights: 'equal',
      mean: 0.1381150987049,
      overdispersion: 0.0469755589028,
      alpha: 2.8020329683,
      beta: 17.4856328596,
    },
  ] as const)(
    'agree with R on the rat tumours, weighted by $weights',
    ({ weights, mean, overdispersion, alpha, beta }) => {
      const moments = kleinmanMoments(TUMOURS, weights);
      expect(Math.abs(moments.mean - mean)).toBeLessThanOrEqual(KEPT_DIGITS);
      expect(Math.abs(moments.overdispersion - overdispersion)).toBeLessThanOrEqual(KEPT_DIGITS);
      expect(Math.abs(moments.mean * (moments.concentration ?? 0) - alpha)).toBeLessThanOrEqual(KEPT_DIGITS);
      expect(Math.abs((1 - moments.mean) * (moments.concentration ?? 0) - beta)).toBeLessThanOrEqual(KEPT_DIGITS);
    },
  );

  // R 4.2.2: rho = (n v / (m (1 - m)) - 1) / (n - 1). Moments of the raw shares would say 39 at-bats instead of 368.
  it.each(['trials', 'equal'] as const)('take the binomial noise out of the batters, weighted by %s', (weights) => {
    const moments = kleinmanMoments(
      HITS.map((successes) => ({ successes, trials: 45 })),
      weights,
    );
    expect(Math.abs(moments.overdispersion - 0.00271011277)).toBeLessThanOrEqual(1e-11);
    expect(Math.abs((moments.concentration ?? 0) - 367.988335)).toBeLessThanOrEqual(1e-5);
  });

  it('say nothing of a prior where groups are more alike than chance makes them', () => {
    const { overdispersion, concentration } = kleinmanMoments(
      [
        { successes: 5, trials: 10 },
        { successes: 5, trials: 10 },
      ],
      'trials',
    );
    expect(overdispersion).toBeLessThan(0);
    expect(concentration).toBeNull();
  });

  it('are mirrored when success and failure change places', () => {
    const groups = fc.array(
      fc
        .integer({ min: 2, max: 40 })
        .chain((trials) =>
          fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 1, max: trials - 1 }) }),
        ),
      { minLength: 2, maxLength: 10 },
    );
    fc.assert(
      fc.property(groups, fc.constantFrom('trials' as const, 'equal' as const), (list, weights) => {
        const moments = kleinmanMoments(list, weights);
        const mirror = kleinmanMoments(
          list.map(({ successes, trials }) => ({ successes: trials - successes, trials })),
          weights,
        );
        expect(mirror.mean).toBeCloseTo(1 - moments.mean, 12);
        expect(mirror.overdispersion).toBeCloseTo(moments.overdispersion, 10);
      }),
    );
  });

  it.each([
    ['stats.invalid_shape', [{ successes: 1, trials: 2 }]],
    [
      'stats.invalid_count',
      [
        { successes: 1, trials: 0 },
        { successes: 1, trials: 2 },
      ],
    ],
    [
      'stats.undefined_statistic',
      [
        { successes: 0, trials: 4 },
        { successes: 0, trials: 2 },
      ],
    ],
    [
      'stats.undefined_statistic',
      [
        { successes: 0, trials: 1 },
        { successes: 1, trials: 1 },
      ],
    ],
  ])('refuse with %s: %j', (code, groups) => {
    expect(() => kleinmanMoments(groups, 'trials')).toThrow(expect.objectContaining({ code }));
  });
});
