import fc from 'fast-check';
import { krippendorffAlpha, type AlphaMetric } from './krippendorff-alpha.js';

const KEPT_DIGITS = 1e-8;

// Krippendorff (2011), Computing Krippendorff's Alpha-Reliability, examples C and E: four observers, twelve units.
const OBSERVERS = [
  [1, 2, 3, 3, 2, 1, 4, 1, 2, null, null, null],
  [1, 2, 3, 3, 2, 2, 4, 1, 2, 5, null, null],
  [null, 3, 3, 3, 2, 3, 4, 2, 2, 5, 1, 3],
  [1, 2, 3, 3, 2, 4, 4, 1, 2, 5, 1, null],
];

describe("Krippendorff's alpha", () => {
  // Printed .743, .815 and .849; longer digits from R, irr::kripp.alpha.
  it.each([
    { metric: 'nominal', printed: 0.743, kept: 0.7434210526 },
    { metric: 'ordinal', printed: 0.815, kept: 0.8153875038 },
    { metric: 'interval', printed: 0.849, kept: 0.8491071429 },
  ] as const)('agrees with Krippendorff on missing data, $metric', ({ metric, printed, kept }) => {
    const alpha = krippendorffAlpha(OBSERVERS, metric);
    expect(Math.abs(alpha - printed)).toBeLessThanOrEqual(0.5e-3);
    expect(Math.abs(alpha - kept)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  // The same paper, examples A and B; R: irr::kripp.alpha.
  it('agrees with Krippendorff on two observers', () => {
    const binary = [
      [0, 1, 0, 0, 0, 0, 0, 0, 1, 0],
      [1, 1, 1, 0, 0, 1, 0, 0, 0, 0],
    ];
    expect(Math.abs(krippendorffAlpha(binary, 'nominal') - 0.09523809524)).toBeLessThanOrEqual(KEPT_DIGITS);
    const letters = ['aabbdcccedda', 'babbbccceddd'].map((line) => Array.from(line, (letter) => letter.charCodeAt(0)));
    expect(Math.abs(krippendorffAlpha(letters, 'nominal') - 0.6919642857)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const ratings = fc
    .integer({ min: 2, max: 8 })
    .chain((units) =>
      fc.array(
        fc.array(fc.option(fc.integer({ min: 1, max: 4 }), { nil: null }), { minLength: units, maxLength: units }),
        {
          minLength: 2,
          maxLength: 5,
        },
      ),
    )
    .filter((table) => {
      const paired = (table[0] ?? [])
        .map((_, unit) => table.flatMap((rater) => rater[unit] ?? []))
        .filter((unit) => unit.length > 1);
      return new Set(paired.flat()).size > 1;
    });

  it('does not feel the order of raters and units, and never passes 1', () => {
    fc.assert(
      fc.property(ratings, fc.constantFrom<AlphaMetric>('nominal', 'ordinal', 'interval'), (table, metric) => {
        const alpha = krippendorffAlpha(table, metric);
        expect(
          krippendorffAlpha(
            table.toReversed().map((rater) => rater.toReversed()),
            metric,
          ),
        ).toBeCloseTo(alpha, 9);
        expect(alpha).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('feels names only when nominal, and scale in no metric', () => {
    const moved = OBSERVERS.map((rater) => rater.map((value) => (value === null ? null : 10 * value - 3)));
    expect(krippendorffAlpha(moved, 'interval')).toBeCloseTo(krippendorffAlpha(OBSERVERS, 'interval'), 12);
    const renamed = OBSERVERS.map((rater) => rater.map((value) => (value === 1 ? 9 : value)));
    expect(krippendorffAlpha(renamed, 'nominal')).toBeCloseTo(krippendorffAlpha(OBSERVERS, 'nominal'), 12);
    expect(Math.abs(krippendorffAlpha(renamed, 'ordinal') - krippendorffAlpha(OBSERVERS, 'ordinal'))).toBeGreaterThan(
      0.01,
    );
  });

  it('is 1 for full agreement', () => {
    expect(
      krippendorffAlpha(
        [
          [1, 2, 3],
          [1, 2, 3],
        ],
        'nominal',
      ),
    ).toBe(1);
  });

  it.each([
    ['stats.invalid_shape', [[1, 2]]],
    ['stats.invalid_shape', [[1, 2], [1]]],
    [
      'stats.invalid_number',
      [
        [1, Number.NaN],
        [1, 2],
      ],
    ],
    [
      'stats.undefined_statistic',
      [
        [1, null],
        [null, 2],
      ],
    ],
    [
      'stats.undefined_statistic',
      [
        [1, 1],
        [1, 1],
      ],
    ],
  ])('refuses with %s: %j', (code, table) => {
    expect(() => krippendorffAlpha(table, 'nominal')).toThrow(expect.objectContaining({ code }));
  });
});
