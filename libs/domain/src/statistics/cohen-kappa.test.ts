import fc from 'fast-check';
import { cohenKappa } from './cohen-kappa.js';

const KEPT_DIGITS = 1e-8;

// SAS/STAT User's Guide, FREQ procedure, two dermatologists and 88 patients; R: vcd::Kappa.
const PATIENTS = [
  [10, 4, 1, 0],
  [5, 10, 12, 2],
  [2, 4, 12, 5],
  [0, 2, 6, 13],
];

describe("Cohen's kappa", () => {
  // Cohen (1960), Educ. Psychol. Meas. 20, 37–46 (method), a widely reproduced example with kappa 0.4; R: vcd::Kappa.
  it('agrees with R on fifty ratings', () => {
    const result = cohenKappa(
      [
        [20, 5],
        [10, 15],
      ],
      'nominal',
      0.95,
    );
    expect(result.observedAgreement).toBeCloseTo(0.7, 12);
    expect(result.expectedAgreement).toBeCloseTo(0.5, 12);
    expect(result.kappa).toBeCloseTo(0.4, 12);
    expect(Math.abs(result.standardError - 0.1269960629)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.nullStandardError - 0.1385640646)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.interval.lower - 0.1510922905)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.interval.upper - 0.6489077095)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  // Feinstein & Cicchetti (1990), J. Clin. Epidemiol. 43, 543–549: the same agreement, different habits.
  it.each([
    {
      table: [
        [45, 15],
        [25, 15],
      ],
      kappa: 0.13043478261,
    },
    {
      table: [
        [25, 35],
        [5, 35],
      ],
      kappa: 0.25925925926,
    },
  ])('depends on the margins: $table', ({ table, kappa }) => {
    const result = cohenKappa(table, 'nominal', 0.95);
    expect(result.observedAgreement).toBeCloseTo(0.6, 12);
    expect(Math.abs(result.kappa - kappa)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  it.each([
    {
      weights: 'nominal',
      kappa: 0.34487534626,
      standardError: 0.07239668737,
      lower: 0.20298044641,
      upper: 0.48677024611,
    },
    {
      weights: 'linear',
      kappa: 0.50816007154,
      standardError: 0.06550838103,
      lower: 0.37976600403,
      upper: 0.63655413905,
    },
  ] as const)('agrees with SAS and R on 88 patients, $weights', ({ weights, kappa, standardError, lower, upper }) => {
    const result = cohenKappa(PATIENTS, weights, 0.95);
    expect(Math.abs(result.kappa - kappa)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.standardError - standardError)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.interval.lower - lower)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(result.interval.upper - upper)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  it('agrees with R on quadratic weights and the null standard error', () => {
    expect(Math.abs(cohenKappa(PATIENTS, 'quadratic', 0.95).kappa - 0.66072289157)).toBeLessThanOrEqual(KEPT_DIGITS);
    const { kappa, nullStandardError } = cohenKappa(PATIENTS, 'nominal', 0.95);
    expect(Math.abs(nullStandardError - 0.06118471913)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(kappa / nullStandardError - 5.63662547079)).toBeLessThanOrEqual(1e-6);
  });

  // Cohen (1968), Psychol. Bull. 70, 213–220, table 1, 200 patients: prints .492 and .348.
  it("agrees with Cohen's own weights", () => {
    const table = [
      [88, 14, 18],
      [10, 40, 10],
      [2, 6, 12],
    ];
    const weights = [
      [0, 1, 3],
      [1, 0, 6],
      [3, 6, 0],
    ];
    expect(Math.abs(cohenKappa(table, 'nominal', 0.95).kappa - 0.492)).toBeLessThanOrEqual(0.5e-3);
    expect(Math.abs(cohenKappa(table, weights, 0.95).kappa - 0.348)).toBeLessThanOrEqual(0.5e-3);
    expect(Math.abs(cohenKappa(table, 'nominal', 0.95).kappa - 0.49152542373)).toBeLessThanOrEqual(KEPT_DIGITS);
    expect(Math.abs(cohenKappa(table, weights, 0.95).kappa - 0.34782608696)).toBeLessThanOrEqual(KEPT_DIGITS);
  });

  const tables = fc.array(fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 3, maxLength: 3 }), {
    minLength: 3,
    maxLength: 3,
  });

  it('does not feel which rater comes first, nor the order of nominal categories', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const result = cohenKappa(table, 'nominal', 0.9);
        const transposed = cohenKappa(
          [0, 1, 2].map((column) => table.map((row) => row[column] ?? 0)),
          'nominal',
          0.9,
        );
        const turned = cohenKappa(table.map((row) => row.toReversed()).toReversed(), 'nominal', 0.9);
        for (const other of [transposed, turned]) {
          expect(other.kappa).toBeCloseTo(result.kappa, 10);
          expect(other.standardError).toBeCloseTo(result.standardError, 10);
        }
      }),
    );
  });

  it('is 1 without error for full agreement', () => {
    expect(
      cohenKappa(
        [
          [7, 0],
          [0, 9],
        ],
        'nominal',
        0.95,
      ),
    ).toMatchObject({ kappa: 1, interval: { upper: 1 } });
    expect(
      cohenKappa(
        [
          [7, 0],
          [0, 9],
        ],
        'nominal',
        0.95,
      ).standardError,
    ).toBeCloseTo(0, 7);
  });

  it.each([
    [
      'stats.undefined_statistic',
      () =>
        cohenKappa(
          [
            [9, 0],
            [0, 0],
          ],
          'nominal',
          0.95,
        ),
    ],
    [
      'stats.undefined_statistic',
      () =>
        cohenKappa(
          [
            [0, 0],
            [0, 0],
          ],
          'nominal',
          0.95,
        ),
    ],
    ['stats.invalid_shape', () => cohenKappa([[1, 2]], 'nominal', 0.95)],
    [
      'stats.invalid_shape',
      () =>
        cohenKappa(
          [
            [1, 2, 3],
            [1, 2, 3],
          ],
          'nominal',
          0.95,
        ),
    ],
    [
      'stats.invalid_shape',
      () =>
        cohenKappa(
          [
            [1, 2],
            [3, 4],
          ],
          [[0, 1]],
          0.95,
        ),
    ],
    [
      'stats.invalid_number',
      () =>
        cohenKappa(
          [
            [1, 2],
            [3, 4],
          ],
          [
            [1, 1],
            [1, 0],
          ],
          0.95,
        ),
    ],
    [
      'stats.invalid_count',
      () =>
        cohenKappa(
          [
            [1, 2],
            [3, 0.5],
          ],
          'nominal',
          0.95,
        ),
    ],
    [
      'stats.invalid_probability',
      () =>
        cohenKappa(
          [
            [1, 2],
            [3, 4],
          ],
          'nominal',
          1,
        ),
    ],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
