import fc from 'fast-check';
import { dirichletMultinomialPosterior } from './dirichlet-multinomial-posterior.js';
import { betaCdf } from './distributions.js';
import { drawDirichlet } from './draw-dirichlet.js';
import { drawMultinomial } from './draw-multinomial.js';
import { elementAt } from './element-at.js';
import { fitConcentration } from './fit-concentration.js';
import { fitDirichletMultinomial } from './fit-dirichlet-multinomial.js';
import { fitTwoConcentrations } from './fit-two-concentrations.js';
import { posteriorShares } from './posterior-shares.js';
import { seededRandom } from './seeded-random.js';

describe('posterior shares', () => {
  // By hand: two plays of one call have probability 1/3 under 2 plays of prior and 2/7 under 6, so the
  // odds of the first kind are 7 : 6, and its posterior share is 3/4 against 5/8.
  it('weighs the two kinds by their evidence', () => {
    const { shares, specialist } = posteriorShares([2, 0], { mean: [0.5, 0.5], weight: 0.5, loose: 2, tight: 6 }, 0.9);
    expect(specialist).toBeCloseTo(7 / 13, 12);
    expect(elementAt(shares, 0).share).toBeCloseTo(9 / 13, 12);
  });

  const players = fc.record({
    counts: fc.array(fc.double({ min: 0, max: 60, noNaN: true }), { minLength: 3, maxLength: 3 }),
    weight: fc.double({ min: 0.01, max: 0.99, noNaN: true }),
    loose: fc.double({ min: 0.5, max: 10, noNaN: true }),
    tight: fc.double({ min: 10, max: 300, noNaN: true }),
  });
  const mean = [0.5, 0.3, 0.2];

  it('has intervals that leave the stated probability outside, by the mixture itself', () => {
    fc.assert(
      fc.property(players, ({ counts, weight, loose, tight }) => {
        const { shares, specialist } = posteriorShares(counts, { mean, weight, loose, tight }, 0.9);
        const size = counts.reduce((sum, count) => sum + count, 0);
        for (const [category, { interval }] of shares.entries()) {
          const below = (share: number, concentration: number): number => {
            const alpha = elementAt(counts, category) + concentration * elementAt(mean, category);
            return betaCdf(share, alpha, size + concentration - alpha);
          };
          const mixed = (share: number): number =>
            specialist * below(share, loose) + (1 - specialist) * below(share, tight);
          // Bounds are promised to 1e-10 of a share; near 0 the distribution climbs steeply, so the
          // probability is read on either side of the bound.
          for (const [bound, probability] of [
            [interval.lower, 0.05],
            [interval.upper, 0.95],
          ] as const) {
            expect(mixed(Math.max(0, bound - 1e-9))).toBeLessThanOrEqual(probability + 1e-6);
            expect(mixed(Math.min(1, bound + 1e-9))).toBeGreaterThanOrEqual(probability - 1e-6);
          }
        }
        expect(shares.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 10);
      }),
    );
  });

  it.each([
    { weight: 0, loose: 2, tight: 30, concentration: 30 },
    { weight: 1, loose: 2, tight: 30, concentration: 2 },
    { weight: 0.4, loose: 30, tight: 30, concentration: 30 },
  ])('is the plain posterior of one kind: $weight of $loose, else $tight', ({ concentration, ...kinds }) => {
    const { shares } = posteriorShares([5, 9, 1], { mean, ...kinds }, 0.9);
    const plain = dirichletMultinomialPosterior([5, 9, 1], mean, concentration, 0.9);
    for (const [category, { share, interval }] of shares.entries()) {
      expect(share).toBeCloseTo(elementAt(plain, category).share, 12);
      expect(interval.lower).toBeCloseTo(elementAt(plain, category).interval.lower, 9);
      expect(interval.upper).toBeCloseTo(elementAt(plain, category).interval.upper, 9);
    }
  });

  it('recognises a specialist, and a player like the rest', () => {
    const prior = { mean, weight: 0.1, loose: 3, tight: 80 };
    expect(posteriorShares([2, 3, 40], prior, 0.9).specialist).toBeGreaterThan(0.99);
    expect(posteriorShares([25, 15, 10], prior, 0.9).specialist).toBeLessThan(0.05);
    expect(posteriorShares([0, 0, 0], prior, 0.9).specialist).toBeCloseTo(0.1, 12);
  });

  // 30 leagues of 40 players, 15 % specialists of concentration 3 among a pool of 60, six calls, 10 to 90 plays.
  it('covers the specialists that a single concentration loses', () => {
    const random = seededRandom(81);
    const field = [0.35, 0.25, 0.15, 0.12, 0.08, 0.05];
    const covered = { pool: 0, poolCells: 0, one: 0, two: 0, cells: 0 };
    for (let league = 0; league < 30; league += 1) {
      const truths = Array.from({ length: 40 }, () => {
        const special = random() < 0.15;
        const concentration = special ? 3 : 60;
        const shares = drawDirichlet(
          random,
          field.map((share) => share * concentration),
        );
        return { special, shares, counts: drawMultinomial(random, 10 + Math.floor(81 * random()), shares) };
      });
      const counts = truths.map((player) => player.counts);
      const fit = fitDirichletMultinomial(counts);
      const single = fitConcentration(counts, fit.mean).concentration;
      const prior = { mean: fit.mean, ...fitTwoConcentrations(counts, fit.mean) };
      for (const player of truths) {
        const mixed = posteriorShares(player.counts, prior, 0.9).shares;
        const plain = dirichletMultinomialPosterior(player.counts, fit.mean, single, 0.9);
        for (const [category, share] of player.shares.entries()) {
          const inside = ({ interval }: { interval: { lower: number; upper: number } }): number =>
            interval.lower <= share && share <= interval.upper ? 1 : 0;
          covered.poolCells += player.special ? 0 : 1;
          covered.pool += player.special ? 0 : inside(elementAt(mixed, category));
          covered.cells += player.special ? 1 : 0;
          covered.two += player.special ? inside(elementAt(mixed, category)) : 0;
          covered.one += player.special ? inside(elementAt(plain, category)) : 0;
        }
      }
    }
    // About 180 specialists with six shares each: the standard error is near 0.013, and of the pool's near 0.004.
    expect(covered.cells).toBeGreaterThan(800);
    expect(covered.two / covered.cells).toBeGreaterThan(0.8);
    expect(covered.one / covered.cells).toBeLessThan(0.7);
    expect(Math.abs(covered.pool / covered.poolCells - 0.9)).toBeLessThan(0.03);
  });

  it.each([
    ['stats.invalid_shape', () => posteriorShares([1], { mean: [0.5, 0.5], weight: 0.1, loose: 1, tight: 9 }, 0.9)],
    [
      'stats.invalid_probability',
      () => posteriorShares([1, 1], { mean: [1, 0], weight: 0.1, loose: 1, tight: 9 }, 0.9),
    ],
    [
      'stats.invalid_probability',
      () => posteriorShares([1, 1], { mean: [0.5, 0.5], weight: 2, loose: 1, tight: 9 }, 0.9),
    ],
    [
      'stats.invalid_probability',
      () => posteriorShares([1, 1], { mean: [0.5, 0.5], weight: 0.1, loose: 1, tight: 9 }, 0),
    ],
    ['stats.invalid_number', () => posteriorShares([1, 1], { mean: [0.5, 0.5], weight: 0.1, loose: 0, tight: 9 }, 0.9)],
    [
      'stats.invalid_number',
      () => posteriorShares([-1, 1], { mean: [0.5, 0.5], weight: 0.1, loose: 1, tight: 9 }, 0.9),
    ],
  ])('refuses with %s', (code, call) => {
    expect(call).toThrow(expect.objectContaining({ code }));
  });
});
