import fc from 'fast-check';
import { posteriorShares } from '../statistics/posterior-shares.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { SharePosteriors, type PlayerKind } from './share-posterior.js';

const kindsOf = (specialist: number, loose: number, tight: number): readonly PlayerKind[] => [
  { probability: specialist, concentration: loose },
  { probability: 1 - specialist, concentration: tight },
];

describe('what is believed of a share', () => {
  it('has the posterior mean of the statistics to 1e-9', () => {
    const random = seededRandom(32);
    for (let draw = 0; draw < 300; draw += 1) {
      const mean = 0.01 + 0.98 * random();
      const known = Math.floor(60 * random());
      const count = Math.floor((known + 1) * random());
      const prior = { weight: 0.15, tight: 5 + 200 * random(), loose: 0.05 + 4 * random(), mean: [mean, 1 - mean] };
      const { shares, specialist } = posteriorShares([count, known - count], prior, 0.9);
      const own = new SharePosteriors(known, kindsOf(specialist, prior.loose, prior.tight)).of(count, mean);
      expect(Math.abs(own.share - (shares[0]?.share ?? NaN))).toBeLessThan(1e-9);
    }
  });

  it('has an interval that holds its mean and stays in [0, 1]', () => {
    const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.integer({ min: 1, max: 200 }), share, (mean, own, known, specialist) => {
        const posterior = new SharePosteriors(known, kindsOf(specialist, 3, 40)).of(own * known, mean);
        const { lower, upper } = posterior.interval(0.9);
        expect(lower).toBeGreaterThanOrEqual(0);
        expect(lower).toBeLessThanOrEqual(posterior.share);
        expect(upper).toBeGreaterThanOrEqual(posterior.share);
        expect(upper).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('is the narrower the more was seen', () => {
    const widths = [4, 12, 40, 400].map((known) => {
      const { lower, upper } = posteriorOf(known / 4, known).interval;
      return upper - lower;
    });
    expect(widths).toEqual(widths.toSorted((a, b) => b - a));
  });

  it('reaches further towards what was seen than the posterior does, where the field is far', () => {
    // 9 of 12 where the field has 20 %: the posterior of one kind with 40 plays is Beta(17, 35), 95 % below 0.44.
    const { interval } = posteriorOf(9, 12);
    expect(interval.upper).toBeGreaterThan(0.6);
    expect(interval.lower).toBeLessThanOrEqual(17 / 52);
  });

  it('turns round when success and failure change places', () => {
    const [one, other] = [posteriorOf(3, 12, 0.2), posteriorOf(9, 12, 0.8)];
    expect(one.interval.lower).toBeCloseTo(1 - other.interval.upper, 6);
    expect(one.interval.upper).toBeCloseTo(1 - other.interval.lower, 6);
  });
});

function posteriorOf(count: number, known: number, mean = 0.2): { interval: { lower: number; upper: number } } {
  return {
    interval: new SharePosteriors(known, [{ probability: 1, concentration: 40 }]).of(count, mean).interval(0.9),
  };
}
