import fc from 'fast-check';
import { ByteWriter, piece } from './byte-writer.js';

function written(write: (to: ByteWriter) => void): string {
  const to = new ByteWriter();
  write(to);
  return to.finished().toString();
}

describe('bytes that are put together', () => {
  it.each([
    ['none', []],
    ['plain ones', ['{"a":', '1}']],
    ['ones beyond ASCII', ['Möwe', ' 🏈 ', '\u2028', '日本']],
    ['more than there is room for at first', ['a'.repeat(600_000), 'é'.repeat(900_000), 'z', 'b'.repeat(5_000_000)]],
  ])('are the texts one behind the other: %s', (_, texts) => {
    for (const put of ['text', 'piece'] as const) {
      const found = written((to) => {
        for (const text of texts) {
          if (put === 'text') to.text(text);
          else to.put(piece(text));
        }
      });
      expect(found === texts.join('')).toBe(true);
    }
  });

  it('stay as they were when others follow', () => {
    const first = new ByteWriter();
    first.text('first');
    const bytes = first.finished();
    new ByteWriter().text('second');
    expect(bytes.toString()).toBe('first');
  });

  it('tell a whole number with its digits', () => {
    const counts = fc.oneof(fc.maxSafeNat(), fc.nat(20), fc.constantFrom(9, 10, 99, 100, Number.MAX_SAFE_INTEGER));
    fc.assert(
      fc.property(counts, (count) => {
        expect(
          written((to) => {
            to.whole(count);
          }),
        ).toBe(String(count));
      }),
    );
  });

  it('tell a number as one of four places', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e9, max: 1e9, noNaN: true }), (value) => {
        const text = written((to) => {
          to.decimal(value);
        });
        expect(text).toMatch(/^-?(?:0|[1-9]\d*)\.\d{4}$/);
        expect(Number(text)).toBe(Math.round(value * 10_000) / 10_000 || 0);
      }),
    );
  });

  it.each([
    [0, '0.0000'],
    [1, '1.0000'],
    [-0.00001, '0.0000'],
    [-0.5, '-0.5000'],
    [0.99996, '1.0000'],
    [0.0305, '0.0305'],
    [12.34567, '12.3457'],
  ])('tell %p as %s', (value, text) => {
    expect(
      written((to) => {
        to.decimal(value);
      }),
    ).toBe(text);
  });

  it('are never those of what is no number', () => {
    for (const value of [Number.NaN, Infinity, -Infinity]) {
      expect(() =>
        written((to) => {
          to.decimal(value);
        }),
      ).toThrow(RangeError);
      expect(() =>
        written((to) => {
          to.whole(value);
        }),
      ).toThrow(RangeError);
    }
    for (const value of [-1, 0.5])
      expect(() =>
        written((to) => {
          to.whole(value);
        }),
      ).toThrow(RangeError);
  });
});
