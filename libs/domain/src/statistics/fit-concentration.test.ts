import fc from 'fast-check';
import { dirichletMultinomialEvidence } from './dirichlet-multinomial-evidence.js';
import { fitConcentration } from './fit-concentration.js';

const TOY = [
  [10, 0, 0],
  [2, 7, 1],
  [5, 1, 4],
  [0, 6, 4],
];

describe('concentration at a fixed mean', () => {
  // R 4.2.2, optimize() at the pooled shares 17/40, 14/40, 9/40; 12 digits kept.
  it('agrees with R on four groups of ten', () => {
    const fit = fitConcentration(TOY, [17 / 40, 14 / 40, 9 / 40]);
    expect(fit.evidence).toBe('inside');
    expect(Math.abs(fit.concentration - 1.81862726644)).toBeLessThanOrEqual(1e-6);
    expect(Math.abs(fit.logLikelihood - -34.7840754497)).toBeLessThanOrEqual(1e-9);
  });

  const tables = fc
    .array(fc.tuple(fc.nat(15), fc.nat(15)), { minLength: 2, maxLength: 10 })
    .filter((table) => table.filter(([first, second]) => first + second >= 2).length >= 2);

  it('is nowhere beaten inside its limits', () => {
    fc.assert(
      fc.property(
        tables,
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (table, share, place) => {
          const mean = [share, 1 - share];
          const plays = table.flat().reduce((sum, count) => sum + count, 0);
          const fit = fitConcentration(table, mean);
          fc.pre(fit.evidence !== 'unidentified');
          const rival = 0.01 * (plays / 0.01) ** place;
          const likelihood = (concentration: number): number =>
            table.reduce((sum, row) => sum + dirichletMultinomialEvidence(row, mean, concentration), 0);
          expect(likelihood(fit.concentration)).toBeCloseTo(fit.logLikelihood, 7);
          expect(likelihood(rival)).toBeLessThanOrEqual(fit.logLikelihood + 1e-7);
        },
      ),
    );
  });

  it.each([
    {
      name: 'pooled',
      counts: [
        [5, 5],
        [5, 5],
      ],
      evidence: 'pooled',
      concentration: 20,
    },
    {
      name: 'pure',
      counts: [
        [50, 0],
        [0, 50],
      ],
      evidence: 'pure',
      concentration: 0.01,
    },
    { name: 'one group', counts: [[5, 5]], evidence: 'unidentified', concentration: 1 },
  ])('says what the data could tell: $name', ({ counts, evidence, concentration }) => {
    expect(fitConcentration(counts, [0.5, 0.5])).toMatchObject({ evidence, concentration });
  });

  it.each([
    ['stats.invalid_probability', () => fitConcentration(TOY, [0.5, 0.5, 0])],
    ['stats.invalid_probability', () => fitConcentration(TOY, [0.5, 0.4, 0.2])],
    ['stats.invalid_shape', () => fitConcentration(TOY, [0.5, 0.5])],
    ['stats.invalid_shape', () => fitConcentration([[1]], [1])],
    ['stats.invalid_count', () => fitConcentration([[1, -1]], [0.5, 0.5])],
    ['stats.undefined_statistic', () => fitConcentration([[0, 0]], [0.5, 0.5])],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
