import fc from 'fast-check';
import { normaliseTerm } from './normalise-term.js';

describe('normaliseTerm', () => {
  it.each([
    ['  GÜN  ', 'gun'],
    ['no-huddle_fast', 'no huddle fast'],
    ['4–3', '4 3'],
    ['slant / flat', 'slant flat'],
    ['gun\\trips', 'gun trips'],
    ['tampa\u00a02', 'tampa 2'],
    ['3x1', '3x1'],
    ['３Ｘ１', '3x1'],
    ['cover²', 'cover2'],
    ['curl & flat', 'curl & flat'],
    ['curl&flat', 'curl&flat'],
    ['check, call unseen', 'check, call unseen'],
    ['İZ', 'iz'],
    [' -_/ ', ''],
    ['', ''],
  ])('takes %j to %j', (text, expected) => {
    expect(normaliseTerm(text)).toBe(expected);
  });

  it('keeps the vowel signs of scripts that write words with them', () => {
    expect(normaliseTerm('कि')).not.toBe(normaliseTerm('क'));
  });

  // A blank before it keeps a word from being taken as it stands.
  it('leaves words of plain letters and digits as they are, as it would the long way', () => {
    const word = fc.stringMatching(/^[a-z0-9]{1,6}$/);
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 4 }), (words) => {
        const text = words.join(' ');
        expect(normaliseTerm(text)).toBe(text);
        expect(normaliseTerm(` ${text}`)).toBe(text);
      }),
    );
  });

  it('is idempotent', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const once = normaliseTerm(text);
        expect(normaliseTerm(once)).toBe(once);
      }),
    );
  });

  it('is idempotent on every single character', () => {
    const changed: number[] = [];
    for (let point = 0; point <= 0x10ffff; point++) {
      if (point >= 0xd800 && point <= 0xdfff) continue;
      const once = normaliseTerm(String.fromCodePoint(point));
      if (normaliseTerm(once) !== once) changed.push(point);
    }
    expect(changed).toEqual([]);
  });

  it('does not care about case, accents and how words are joined', () => {
    const words = fc.array(fc.stringMatching(/^[a-z0-9]{1,8}$/), { minLength: 1, maxLength: 5 });
    const joint = fc.constantFrom(' ', '-', '_', '/', ' - ', '\t', '—');
    fc.assert(
      fc.property(words, joint, (parts, between) => {
        const accented = parts.map((part) => `${part.toUpperCase()}\u0301`);
        expect(normaliseTerm(accented.join(between))).toBe(parts.join(' '));
      }),
    );
  });
});
