import fc from 'fast-check';
import { drawDirichlet } from './draw-dirichlet.js';
import { drawMultinomial } from './draw-multinomial.js';
import { fitTwoConcentrations } from './fit-two-concentrations.js';
import { seededRandom } from './seeded-random.js';

const MEAN = [0.4, 0.3, 0.2, 0.1];

describe('two concentrations', () => {
  it('recovers the two kinds a large league was drawn from', () => {
    const random = seededRandom(71);
    const counts = Array.from({ length: 600 }, () => {
      const concentration = random() < 0.15 ? 3 : 60;
      return drawMultinomial(
        random,
        50,
        drawDirichlet(
          random,
          MEAN.map((share) => share * concentration),
        ),
      );
    });
    const { weight, tight, loose } = fitTwoConcentrations(counts, MEAN);
    // 90 specialists: the weight is known to about 0.02, the logarithms of the concentrations to about 0.1.
    expect(Math.abs(weight - 0.15)).toBeLessThan(0.06);
    expect(Math.abs(Math.log(tight / 60))).toBeLessThan(0.4);
    expect(Math.abs(Math.log(loose / 3))).toBeLessThan(0.4);
  });

  const tables = fc
    .array(fc.array(fc.nat(20), { minLength: 4, maxLength: 4 }), { minLength: 1, maxLength: 10 })
    .filter((table) => table.flat().some((count) => count > 0));

  it('gives a usable prior for any table', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const { weight, tight, loose } = fitTwoConcentrations(table, MEAN);
        expect(weight).toBeGreaterThan(0);
        expect(weight).toBeLessThan(1);
        expect(loose).toBeGreaterThanOrEqual(0.01);
        expect(loose).toBeLessThanOrEqual(Math.max(0.01, tight / 4));
        expect(tight).toBeLessThanOrEqual(
          2 *
            Math.max(
              1,
              table.flat().reduce((sum, count) => sum + count, 0),
            ),
        );
      }),
      { numRuns: 40 },
    );
  });

  it('does not feel the order of players or players without plays', () => {
    const counts = [
      [12, 8, 5, 3],
      [10, 9, 6, 2],
      [1, 2, 3, 22],
      [11, 7, 6, 4],
    ];
    const fit = fitTwoConcentrations(counts, MEAN);
    const turned = fitTwoConcentrations([[0, 0, 0, 0], ...counts.toReversed()], MEAN);
    expect(turned.weight).toBeCloseTo(fit.weight, 8);
    expect(turned.tight / fit.tight).toBeCloseTo(1, 6);
    expect(turned.loose / fit.loose).toBeCloseTo(1, 6);
  });

  it('keeps room for a specialist where none was seen', () => {
    const alike = Array.from({ length: 10 }, () => [16, 12, 8, 4]);
    const { weight, tight, loose } = fitTwoConcentrations(alike, MEAN);
    expect(weight).toBeGreaterThan(0.04);
    expect(tight / loose).toBeGreaterThanOrEqual(4);
  });

  it.each([
    ['stats.invalid_probability', () => fitTwoConcentrations([[1, 2]], [1, 0])],
    ['stats.invalid_shape', () => fitTwoConcentrations([[1, 2, 3]], [0.5, 0.5])],
    ['stats.invalid_count', () => fitTwoConcentrations([[1, 0.2]], [0.5, 0.5])],
    ['stats.undefined_statistic', () => fitTwoConcentrations([[0, 0]], [0.5, 0.5])],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
