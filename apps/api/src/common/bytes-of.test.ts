import { bytesOf } from './bytes-of.js';

describe('texts as bytes', () => {
  it.each([
    ['none', []],
    ['plain ones', ['{"a":', '1}']],
    ['ones beyond ASCII', ['Möwe', ' 🏈 ', '\u2028', '日本']],
    ['more than fits at first', ['a'.repeat(100_000), 'é'.repeat(300_000), 'z']],
  ])('are those of the whole: %s', (_, texts) => {
    expect(bytesOf(texts).equals(Buffer.from(texts.join('')))).toBe(true);
  });

  it('stay as they were when others follow', () => {
    const first = bytesOf(['first']);
    bytesOf(['second']);
    expect(first.toString()).toBe('first');
  });
});
