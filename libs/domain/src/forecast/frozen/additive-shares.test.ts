import fc from 'fast-check';
import { seededRandom } from '../../statistics/seeded-random.js';
import { additiveShares, type AdditiveShares, type CodedPart } from './additive-shares.js';

const CLASSES = 3;
const ROWS = Int32Array.from({ length: 600 }, (_, row) => row);

/** Plays with two parts whose values are drawn, about one in eight of them not known. */
function drawnParts(seed: number): CodedPart[] {
  const random = seededRandom(seed);
  return [4, 3].map((values) => ({
    values,
    codes: Int16Array.from(ROWS, () => (random() < 0.125 ? -1 : Math.floor(random() * values))),
  }));
}

function normalised(shares: Float64Array): Float64Array {
  const sum = shares.reduce((total, share) => total + share, 0);
  return shares.map((share) => share / sum);
}

/** What the products say of a play. */
function said({ start, parts }: AdditiveShares, coded: readonly CodedPart[], row: number): Float64Array {
  const product = start.map((share, k) =>
    parts.reduce((value, shares, part) => {
      const { codes, values } = coded[part] ?? { codes: new Int16Array(0), values: 0 };
      const code = codes[row] ?? -1;
      return value * (shares[(code < 0 ? values : code) * CLASSES + k] ?? 0);
    }, share),
  );
  return normalised(product);
}

/** Probabilities of plays that are products, by shares drawn for every value. */
function products(coded: readonly CodedPart[], seed: number): Float64Array {
  const random = seededRandom(seed);
  const drawn = (rows: number): Float64Array => Float64Array.from({ length: rows * CLASSES }, () => 0.2 + random());
  const of = { start: drawn(1), parts: coded.map(({ values }) => drawn(values + 1)) };
  return Float64Array.from([...ROWS].flatMap((row) => [...said(of, coded, row)]));
}

describe('shares that are multiplied', () => {
  it('have rows above 0 that add up to 1', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000 }), (seed) => {
        const coded = drawnParts(seed);
        const { start, parts } = additiveShares(coded, ROWS, products(coded, seed + 1), CLASSES);
        for (const block of [start, ...parts]) {
          expect(Math.min(...block)).toBeGreaterThan(0);
          for (let at = 0; at < block.length; at += CLASSES) {
            expect(block.subarray(at, at + CLASSES).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
          }
        }
      }),
      { numRuns: 20 },
    );
  });

  it('come within a few hundredths of probabilities that are such products', () => {
    const coded = drawnParts(5);
    const wanted = products(coded, 6);
    const found = additiveShares(coded, ROWS, wanted, CLASSES);
    const off = [...ROWS].map((row) =>
      Math.max(...said(found, coded, row).map((share, k) => Math.abs(share - (wanted[row * CLASSES + k] ?? 0)))),
    );
    // What is left is the penalty of a play's weight on each row, of about 70 to 150 plays.
    expect(Math.max(...off)).toBeLessThan(0.03);
  });

  it('say on average what is wanted on average, as a logistic regression with a free start does', () => {
    // The score equations of the start: le Cessie and van Houwelingen (1992), the start not being penalised.
    const coded = drawnParts(7);
    const random = seededRandom(8);
    const wanted = Float64Array.from(
      [...ROWS].flatMap(() => [...normalised(Float64Array.from([1, 2, 3], () => random()))]),
    );
    const found = additiveShares(coded, ROWS, wanted, CLASSES);
    for (let k = 0; k < CLASSES; k += 1) {
      const [over, should] = [0, 0].map((_, which) =>
        [...ROWS].reduce(
          (sum, row) => sum + ((which === 0 ? said(found, coded, row)[k] : wanted[row * CLASSES + k]) ?? 0),
          0,
        ),
      );
      expect((over ?? 0) / ROWS.length).toBeCloseTo((should ?? 0) / ROWS.length, 2);
    }
  });

  it('are the mean of what is wanted where nothing is seen', () => {
    const wanted = Float64Array.from([...ROWS].flatMap((row) => (row % 4 === 0 ? [1, 0, 0] : [0, 0.5, 0.5])));
    const { start } = additiveShares([], ROWS, wanted, CLASSES);
    expect([...start].map((share) => Number(share.toFixed(3)))).toEqual([0.25, 0.375, 0.375]);
  });
});
