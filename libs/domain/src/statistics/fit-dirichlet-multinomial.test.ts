import fc from 'fast-check';
import { dirichletMultinomialLikelihood } from './dirichlet-multinomial-likelihood.js';
import { drawDirichlet } from './draw-dirichlet.js';
import { drawMultinomial } from './draw-multinomial.js';
import { elementAt } from './element-at.js';
import { fitDirichletMultinomial } from './fit-dirichlet-multinomial.js';
import { seededRandom } from './seeded-random.js';

// Fossil pollen, 73 levels of 100 grains: Mosimann (1962), Biometrika 49, 65–82, as archived in two R packages.
const POLLEN = [
  [94, 0, 5, 1],
  [75, 2, 14, 9],
  [81, 2, 13, 4],
  [95, 2, 3, 0],
  [89, 3, 1, 7],
  [84, 5, 7, 4],
  [81, 3, 10, 6],
  [97, 0, 2, 1],
  [86, 1, 8, 5],
  [86, 2, 11, 1],
  [82, 2, 10, 6],
  [72, 1, 16, 11],
  [89, 0, 9, 2],
  [93, 4, 2, 1],
  [87, 1, 11, 1],
  [85, 0, 12, 3],
  [91, 0, 7, 2],
  [95, 1, 3, 1],
  [94, 3, 3, 0],
  [85, 1, 12, 2],
  [91, 1, 4, 4],
  [99, 1, 0, 0],
  [90, 2, 8, 0],
  [91, 0, 8, 1],
  [79, 1, 19, 1],
  [89, 0, 7, 4],
  [95, 2, 1, 2],
  [90, 3, 5, 2],
  [93, 1, 6, 0],
  [90, 2, 7, 1],
  [89, 2, 9, 0],
  [88, 1, 9, 2],
  [99, 0, 1, 0],
  [86, 1, 10, 3],
  [88, 0, 7, 5],
  [91, 0, 7, 2],
  [84, 0, 14, 2],
  [84, 1, 12, 3],
  [97, 0, 3, 0],
  [83, 0, 13, 4],
  [81, 1, 15, 3],
  [81, 1, 16, 2],
  [76, 2, 18, 4],
  [87, 3, 7, 3],
  [91, 1, 5, 3],
  [94, 0, 5, 1],
  [88, 1, 11, 0],
  [93, 4, 2, 1],
  [84, 0, 8, 8],
  [87, 1, 12, 0],
  [89, 1, 6, 4],
  [73, 0, 13, 14],
  [87, 3, 8, 2],
  [94, 1, 3, 2],
  [81, 2, 9, 8],
  [88, 0, 9, 3],
  [94, 0, 4, 2],
  [69, 7, 18, 6],
  [90, 0, 8, 2],
  [86, 1, 8, 5],
  [90, 0, 7, 3],
  [74, 5, 16, 5],
  [82, 2, 11, 5],
  [87, 3, 9, 1],
  [68, 3, 26, 3],
  [77, 3, 11, 9],
  [86, 2, 7, 5],
  [79, 1, 11, 9],
  [87, 0, 11, 2],
  [79, 1, 17, 3],
  [74, 0, 19, 7],
  [80, 0, 14, 6],
  [85, 3, 9, 3],
];

// R 4.2.2: BFGS and the fixed point agree to 6 digits on the pollen; vglm(S ~ 1, dirmultinomial) on the toy.
const AGREED_DIGITS = 1e-3;
const TOY = [
  [10, 0, 0],
  [2, 7, 1],
  [5, 1, 4],
  [0, 6, 4],
];
const TOY_TOLERANCE = 1e-6;

describe('Dirichlet-multinomial fit', () => {
  it('agrees with R on the fossil pollen', () => {
    const fit = fitDirichletMultinomial(POLLEN);
    expect(fit.evidence).toBe('inside');
    expect(Math.abs(fit.concentration - 60.1954)).toBeLessThanOrEqual(AGREED_DIGITS);
    expect(Math.abs(fit.logLikelihood - -3710.06942)).toBeLessThanOrEqual(AGREED_DIGITS);
    for (const [category, share] of [0.862115, 0.0164256, 0.088799, 0.0326606].entries()) {
      expect(Math.abs(elementAt(fit.mean, category) - share)).toBeLessThanOrEqual(1e-6);
    }
  });

  it('agrees with R on four groups of ten', () => {
    const fit = fitDirichletMultinomial(TOY);
    expect(Math.abs(fit.concentration - 1.75427630348)).toBeLessThanOrEqual(TOY_TOLERANCE);
    expect(Math.abs(fit.logLikelihood - -34.6697475323)).toBeLessThanOrEqual(TOY_TOLERANCE);
    for (const [category, alpha] of [0.668850881277, 0.583670235703, 0.501755186498].entries()) {
      expect(Math.abs(elementAt(fit.mean, category) * fit.concentration - alpha)).toBeLessThanOrEqual(TOY_TOLERANCE);
    }
  });

  it('does not feel the order of groups and categories, nor empty groups', () => {
    const turned = fitDirichletMultinomial([[0, 0, 0], ...TOY.map((row) => row.toReversed()).toReversed()]);
    const fit = fitDirichletMultinomial(TOY);
    expect(turned.concentration).toBeCloseTo(fit.concentration, 7);
    for (const [category, share] of turned.mean.toReversed().entries()) {
      expect(share).toBeCloseTo(elementAt(fit.mean, category), 8);
    }
  });

  // One group in fifteen used the first call, once: the likelihood is a long ridge.
  it('reaches the top where a category is all but unused', () => {
    const counts = Array.from({ length: 15 }, (_, group) => (group === 3 ? [1, 19] : [0, 5 + 5 * group]));
    const { mean, concentration, logLikelihood } = fitDirichletMultinomial(counts);
    const likelihood = dirichletMultinomialLikelihood(counts);
    for (const [first, second] of [
      [0.9, 1],
      [1.1, 1],
      [1, 0.9],
      [1, 1.1],
      [0.9, 0.9],
      [1.1, 1.1],
    ] as const) {
      const alpha = [elementAt(mean, 0) * concentration * first, elementAt(mean, 1) * concentration * second];
      expect(likelihood.at(alpha)).toBeLessThan(logLikelihood);
    }
  });

  it('recovers what simulated groups were drawn from', () => {
    const random = seededRandom(61);
    const counts = Array.from({ length: 400 }, () => drawMultinomial(random, 60, drawDirichlet(random, [10, 6, 4])));
    const fit = fitDirichletMultinomial(counts);
    // About four standard errors of 400 groups: sd of a share ≈ 0.1, of the log concentration ≈ 0.06.
    expect(Math.abs(elementAt(fit.mean, 0) - 0.5)).toBeLessThan(0.025);
    expect(Math.abs(Math.log(fit.concentration / 20))).toBeLessThan(0.25);
  });

  const tables = fc
    .integer({ min: 2, max: 5 })
    .chain((columns) =>
      fc.array(fc.array(fc.nat(12), { minLength: columns, maxLength: columns }), { minLength: 1, maxLength: 12 }),
    )
    .filter((table) => table.some((row) => row.some((count) => count > 0)));

  it('gives a usable prior for any table: shares above 0 adding up to 1, concentration within its limits', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const fit = fitDirichletMultinomial(table);
        const plays = table.flat().reduce((sum, count) => sum + count, 0);
        expect(fit.mean.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 10);
        expect(Math.min(...fit.mean)).toBeGreaterThan(0);
        expect(fit.concentration).toBeGreaterThanOrEqual(0.01);
        expect(fit.concentration).toBeLessThanOrEqual(Math.max(1, plays) * (1 + 1e-9));
        expect(Number.isFinite(fit.logLikelihood)).toBe(true);
      }),
    );
  });

  it('caps the concentration at the plays seen where groups vary no more than chance', () => {
    const fit = fitDirichletMultinomial([
      [10, 10],
      [10, 10],
      [10, 10],
    ]);
    expect(fit).toMatchObject({ evidence: 'pooled', concentration: 60, mean: [0.5, 0.5] });
  });

  it('takes the average of the groups where each keeps to one category', () => {
    const fit = fitDirichletMultinomial([
      [90, 0],
      [0, 10],
      [0, 20],
    ]);
    expect(fit).toMatchObject({ evidence: 'pure', concentration: 0.01 });
    expect(elementAt(fit.mean, 0)).toBeCloseTo(1 / 3, 12);
  });

  it.each([
    { name: 'one group', counts: [[7, 3]] },
    {
      name: 'single plays',
      counts: [
        [1, 0],
        [0, 1],
        [1, 0],
      ],
    },
    {
      name: 'one category',
      counts: [
        [9, 0],
        [8, 0],
      ],
    },
  ])('stands back to a weak prior for $name', ({ counts }) => {
    expect(fitDirichletMultinomial(counts)).toMatchObject({ evidence: 'unidentified', concentration: 1 });
  });

  it('keeps half a play for a category nobody used', () => {
    const fit = fitDirichletMultinomial(TOY.map((row) => [...row, 0]));
    expect(elementAt(fit.mean, 3)).toBeCloseTo(0.5 / 40.5, 12);
    expect(elementAt(fit.mean, 0) / elementAt(fit.mean, 1)).toBeCloseTo(0.668850881277 / 0.583670235703, 6);
  });

  it.each([
    ['stats.invalid_shape', []],
    ['stats.invalid_shape', [[1], [2]]],
    ['stats.invalid_shape', [[1, 2], [2]]],
    ['stats.invalid_count', [[1, 0.5]]],
    ['stats.undefined_statistic', [[0, 0]]],
  ])('refuses with %s: %j', (code, counts) => {
    expect(() => fitDirichletMultinomial(counts)).toThrow(expect.objectContaining({ code }));
  });
});
