import fc from 'fast-check';
import { clusteredTrend, type TrendCell } from './clustered-trend.js';
import { seededRandom } from './seeded-random.js';

const TURNS = 1999;
const cell = (cluster: number, score: number, successes: number, trials: number): TrendCell => ({
  cluster,
  score,
  successes,
  trials,
});

// Armitage (1955), Biometrics 11, 375–386, tonsils and carriers: every child a cluster of its own.
const CARRIERS = [
  { score: -1, successes: 19, trials: 516 },
  { score: 0, successes: 29, trials: 589 },
  { score: 1, successes: 24, trials: 293 },
];

describe('the trend between clusters', () => {
  it('is that of Armitage where every trial is a cluster', () => {
    let cluster = 0;
    const cells = CARRIERS.flatMap(({ score, successes, trials }) =>
      Array.from({ length: trials }, (_, trial) => cell(cluster++, score, trial < successes ? 1 : 0, 1)),
    );
    const { armitage, z, pValue, slope } = clusteredTrend(cells, TURNS, seededRandom(1));
    expect(armitage.statistic).toBeCloseTo(7.1927, 4);
    // The variance between clusters is taken from what they did, not from the null: an eighth less here.
    expect(z).toBeGreaterThan(2.4);
    expect(z).toBeLessThan(2.8);
    // Least squares of the shares 19/516, 29/589 and 24/293, weighed by children; from the plain sums.
    expect(slope).toBeCloseTo(0.0213142, 6);
    // Armitage prints .007; of 1999 turns one standard error is 0.002.
    expect(Math.abs(pValue - 0.0073)).toBeLessThan(0.006);
  });

  // All 2^4 turns of four equal parts: two of them reach the observed sum, so p = 1/8. By hand.
  it('has the p-value that counting every turn gives', () => {
    const cells = [0, 1, 2, 3].flatMap((cluster) => [cell(cluster, 0, 0, 10), cell(cluster, 1, 4, 10)]);
    const { pValue } = clusteredTrend(cells, TURNS, seededRandom(2));
    // Stopped at a hundred hits: a standard error of a tenth.
    expect(Math.abs(pValue - 0.125)).toBeLessThan(0.04);
  });

  it('is not made by one cluster alone, however much it does', () => {
    const others = [1, 2, 3, 4, 5, 6].flatMap((cluster) => [cell(cluster, 0, 2, 40), cell(cluster, 1, 2, 40)]);
    const heavy = [cell(0, 0, 0, 40), cell(0, 1, 39, 40)];
    const { armitage, pValue } = clusteredTrend([...others, ...heavy], TURNS, seededRandom(3));
    expect(armitage.pValue).toBeLessThan(0.001);
    expect(pValue).toBeGreaterThan(0.5);
  });

  it('turns its sign with the scores and does not feel their scale', () => {
    const cells = fc.array(
      fc.tuple(fc.nat(5), fc.nat(2), fc.integer({ min: 1, max: 20 }), fc.double({ min: 0, max: 1, noNaN: true })),
      {
        minLength: 6,
        maxLength: 20,
      },
    );
    fc.assert(
      fc.property(cells, (drawn) => {
        const list = drawn.map(([cluster, score, trials, part]) =>
          cell(cluster, score, Math.round(part * trials), trials),
        );
        list.push(cell(6, 0, 0, 5), cell(7, 2, 5, 5));
        const { z, slope, pValue } = clusteredTrend(list, 199, seededRandom(4));
        const turned = clusteredTrend(
          list.map((one) => ({ ...one, score: -3 * one.score })),
          199,
          seededRandom(4),
        );
        expect(turned.z).toBeCloseTo(-z, 8);
        expect(turned.slope).toBeCloseTo(-slope / 3, 8);
        expect(turned.pValue).toBeCloseTo(pValue, 8);
      }),
    );
  });

  it.each([
    ['stats.invalid_count', [cell(0, 0, 2, 1), cell(1, 1, 0, 1)]],
    ['stats.invalid_shape', [cell(0, 0, 1, 1)]],
    ['stats.undefined_statistic', [cell(0, 0, 1, 1), cell(1, 1, 1, 1)]],
    ['stats.invalid_number', [cell(0, Number.NaN, 1, 2), cell(1, 1, 1, 1)]],
  ])('refuses with %s', (code, cells) => {
    expect(() => clusteredTrend(cells, TURNS, seededRandom(1))).toThrow(expect.objectContaining({ code }));
  });

  it('refuses no turns', () => {
    const cells = [cell(0, 0, 1, 2), cell(1, 1, 1, 1)];
    expect(() => clusteredTrend(cells, 0, seededRandom(1))).toThrow(
      expect.objectContaining({ code: 'stats.invalid_count' }),
    );
  });
});
