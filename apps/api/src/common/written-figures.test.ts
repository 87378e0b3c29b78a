import fc from 'fast-check';
import type { Results } from '#domain/tendencies/results-shape.js';
import { ByteWriter } from './byte-writer.js';
import { estimate, fieldShare, results } from './figures.js';
import { writeEstimate, writeFieldShare, writeResults } from './written-figures.js';

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

function written<Figure>(write: (to: ByteWriter, figure: Figure) => void, figure: Figure): unknown {
  const to = new ByteWriter();
  write(to, figure);
  return JSON.parse(to.finished().toString());
}

it('figures that are written are the figures as objects', () => {
  fc.assert(
    fc.property(fc.option(shareEstimate), fc.option(share), outcome, (ofValue, ofField, came) => {
      expect(written(writeEstimate, ofValue)).toEqual(estimate(ofValue));
      expect(written(writeFieldShare, ofField)).toEqual(fieldShare(ofField));
      // Through text, which tells no zero from a negative one.
      expect(written(writeResults, came)).toEqual(JSON.parse(JSON.stringify(results(came))));
    }),
  );
});
