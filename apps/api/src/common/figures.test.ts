import fc from 'fast-check';
import type { Results } from '#domain/tendencies/results-shape.js';
import {
  estimate,
  estimateText,
  fieldShare,
  fieldShareText,
  results,
  resultsText,
  rounded,
  roundedText,
} from './figures.js';

const unit = fc.double({ min: 0, max: 1, noNaN: true });
const number = fc.double({ min: -99, max: 99, noNaN: true });
const plays = fc.integer({ min: 1, max: 200_000 });
const intervalOf = (bound: fc.Arbitrary<number>) => fc.record({ lower: bound, upper: bound });
const shareEstimate = fc.record({ share: unit, interval: intervalOf(unit) });
const share = fc.record({ share: unit, count: plays, known: plays });
const outcome: fc.Arbitrary<Results> = fc.record({
  trials: plays,
  successes: plays,
  success: fc.option(shareEstimate),
  fieldSuccess: fc.option(share),
  yards: fc.option(fc.record({ plays, mean: number })),
  explosive: fc.option(fc.record({ plays, count: plays, share: unit })),
  pointsAdded: fc.option(fc.record({ plays, mean: number, interval: fc.option(intervalOf(number)) })),
});

describe('figures that are written as text', () => {
  it('are the JSON of the figures as objects', () => {
    fc.assert(
      fc.property(unit, shareEstimate, share, outcome, (one, ofValue, ofField, came) => {
        expect(roundedText(one)).toBe(JSON.stringify(rounded(one)));
        expect(estimateText(ofValue)).toBe(JSON.stringify(estimate(ofValue)));
        expect(JSON.parse(fieldShareText(ofField))).toEqual(fieldShare(ofField));
        expect(JSON.parse(resultsText(came))).toEqual(JSON.parse(JSON.stringify(results(came))));
      }),
    );
  });

  it.each([
    [0, '0'],
    [1, '1'],
    [-0.00001, '0'],
    [1.2, '1.2'],
    [0.3, '0.3'],
    [0.00004, '0'],
  ])('tell %p as %s', (value, text) => {
    expect(roundedText(value)).toBe(text);
  });
});
