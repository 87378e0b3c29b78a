import fc from 'fast-check';
import { effectiveTrials } from '../statistics/effective-trials.js';
import { countValues } from './value-tallies.js';
import { weightedPlays, type WeightedPlays } from './weighted-plays.js';

const CODES = Int16Array.of(0, 1, 1, -1, 2, 0);
const PLACES = Int32Array.of(0, 1, 2, 3, 4);
const VALUES = 4;

function weighted(weights: readonly number[] | null): WeightedPlays {
  const counted = countValues(PLACES, CODES, VALUES);
  return weightedPlays(counted, PLACES, CODES, weights === null ? null : Float64Array.from(weights));
}

describe('plays with weights', () => {
  it('are counted as they are without', () => {
    expect(weighted(null)).toEqual({ plays: [1, 2, 1, 0], effectiveKnown: 4 });
    expect(weighted([3, 3, 3, 3, 3, 3])).toEqual({ plays: Float64Array.of(1, 2, 1, 0), effectiveKnown: 4 });
  });

  // Kish (1965), Survey Sampling, 11.7: (Σw)² / Σw² of 4, 2, 2, 1 is 81 / 25; the unknown play and the one outside have no part.
  it("are worth Kish's effective number together", () => {
    const { plays, effectiveKnown } = weighted([4, 2, 2, 9, 1, 9]);
    expect(effectiveKnown).toBeCloseTo(81 / 25, 12);
    [4 / 9, 4 / 9, 1 / 9, 0].forEach((share, code) => {
      expect((plays[code] ?? Number.NaN) / effectiveKnown).toBeCloseTo(share, 12);
    });
  });

  it('are worth nothing where every weight is 0', () => {
    expect(weighted([0, 0, 0, 1, 0, 1])).toEqual({ plays: new Float64Array(VALUES), effectiveKnown: 0 });
  });

  it('do not depend on the unit of the weights, however small', () => {
    const weight = fc.double({ min: 1e-3, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(weight, { minLength: 6, maxLength: 6 }),
        fc.integer({ min: -900, max: 900 }),
        (weights, halvings) => {
          const [found, scaled] = [weighted(weights), weighted(weights.map((of) => of * 2 ** halvings))];
          expect(found.effectiveKnown).toBeCloseTo(effectiveTrials([0, 1, 2, 4].map((play) => weights[play] ?? 0)), 9);
          expect(scaled.effectiveKnown).toBeCloseTo(found.effectiveKnown, 9);
          Array.from(scaled.plays).forEach((of, code) => {
            expect(of).toBeCloseTo(found.plays[code] ?? Number.NaN, 9);
          });
        },
      ),
    );
  });
});
