import { dirichletMultinomialEvidence } from '../statistics/dirichlet-multinomial-evidence.js';
import { drawDirichlet } from '../statistics/draw-dirichlet.js';
import { drawMultinomial } from '../statistics/draw-multinomial.js';
import { fitTwoConcentrations } from '../statistics/fit-two-concentrations.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { concentrationGrid } from './concentration-grid.js';
import { concentrationAroundEstimate, effectiveFieldPlays, fieldMean } from './field-mean.js';
import { fitTwoOnGrid } from './fit-two-on-grid.js';
import { FALLBACK_PRIOR, fitPrior } from './prior.js';

function leagueCounts(seed: number, players: number, concentration: number): number[][] {
  const random = seededRandom(seed);
  const mean = [0.4, 0.3, 0.2, 0.1];
  return Array.from({ length: players }, () =>
    drawMultinomial(
      random,
      40,
      drawDirichlet(
        random,
        mean.map((share) => share * concentration),
      ),
    ),
  );
}

const cellOf = (rows: readonly (readonly number[])[]): { columns: number; counts: Int32Array; overall: Int32Array } => {
  const counts = Int32Array.from(rows.flat());
  return { columns: rows[0]?.length ?? 2, counts, overall: counts };
};

describe('the prior of a dimension', () => {
  it('falls back to the stated one below five players', () => {
    const prior = fitPrior([cellOf(leagueCounts(1, 4, 20))]);
    expect(prior).toEqual({ ...FALLBACK_PRIOR, fitted: false, players: 4 });
  });

  it('does not count players with a single play', () => {
    const rows = [...leagueCounts(2, 4, 20), [1, 0, 0, 0], [0, 0, 0, 0]];
    expect(fitPrior([cellOf(rows)]).players).toBe(4);
  });

  it('is near what the players were drawn with, even when they are six', () => {
    // One value's likelihood over 20 leagues of six players is broad; the median of the fits is what is judged.
    const fits = Array.from({ length: 20 }, (_, league) => {
      const { weight, tight, loose } = fitPrior([cellOf(leagueCounts(100 + league, 6, 20))]);
      return 1 / (weight / (loose + 1) + (1 - weight) / (tight + 1)) - 1;
    }).sort((a, b) => a - b);
    expect(fits[10]).toBeGreaterThan(10);
    expect(fits[10]).toBeLessThan(40);
  });

  it('explains players on a grid nearly as well as the continuous fit does', () => {
    const counts = leagueCounts(3, 60, 15);
    const pooled = [0, 1, 2, 3].map((value) => counts.reduce((sum, row) => sum + (row[value] ?? 0), 0));
    const mean = pooled.map((count) => count / (60 * 40));
    const grid = concentrationGrid(60 * 40);
    const evidence = counts.flatMap((row) => grid.map((point) => dirichletMultinomialEvidence(row, mean, point)));
    const heightOf = ({ weight, tight, loose }: { weight: number; tight: number; loose: number }): number =>
      counts.reduce(
        (sum, row) =>
          sum +
          Math.log(
            weight * Math.exp(dirichletMultinomialEvidence(row, mean, loose)) +
              (1 - weight) * Math.exp(dirichletMultinomialEvidence(row, mean, tight)),
          ),
        0,
      );
    const onGrid = heightOf(fitTwoOnGrid(Float64Array.from(evidence), grid));
    const continuous = heightOf(fitTwoConcentrations(counts, mean));
    // Half a step of the grid is a factor of 1.19 of a concentration; two units of log-likelihood are no evidence.
    expect(Math.abs(onGrid - continuous)).toBeLessThan(2);
  });
});

describe('the mean of the field', () => {
  it('is the counts, one play of the shares over all snaps, and half a play a value in those', () => {
    // Over all snaps (6 + 0.5) / 11 and (4 + 0.5) / 11; in the situation (1 + 0.5909...) / 2 and (0 + 0.4090...) / 2.
    const [first, second] = fieldMean([1, 0], [6, 4], 2);
    expect(first).toBeCloseTo((1 + 6.5 / 11) / 2, 12);
    expect(second).toBeCloseTo(4.5 / 11 / 2, 12);
  });

  it('is worth fewer plays when they lie with a few players', () => {
    // Two players of 10: 20² / (20 × 0.5 + 200 × 0.5) = 400 / 110.
    expect(effectiveFieldPlays({ plays: 20, squares: 200 }, 0.5)).toBeCloseTo(400 / 110, 12);
    expect(effectiveFieldPlays({ plays: 20, squares: 20 }, 0.5)).toBeCloseTo(20, 12);
    expect(effectiveFieldPlays({ plays: 0, squares: 0 }, 0.5)).toBe(0);
  });

  it('that is well known leaves the concentration, and one that is not lowers it', () => {
    expect(concentrationAroundEstimate(50, 1e9)).toBeCloseTo(50, 4);
    // 1/51 of the player and 50/51 × 1/101 of the mean: 1 / 0.029314... - 1.
    expect(concentrationAroundEstimate(50, 100)).toBeCloseTo(1 / (1 / 51 + 50 / 51 / 101) - 1, 10);
    expect(concentrationAroundEstimate(50, 0)).toBe(0.01);
  });
});
