import { randomWords } from './random-words.js';
import { seededRandom } from './seeded-random.js';

describe('random words in bulk', () => {
  it('are those that seeded random numbers are made of, however they are asked for', () => {
    for (const seed of [0, 1, 2026, Number.MAX_SAFE_INTEGER]) {
      const numbers = seededRandom(seed);
      const fill = randomWords(seed);
      for (const length of [2, 6, 100]) {
        const words = new Uint32Array(length);
        fill(words);
        for (let at = 0; at < length; at += 2) {
          const [high = 0, low = 0] = [words[at], words[at + 1]];
          expect(((high >>> 5) * 2 ** 26 + (low >>> 6)) / 2 ** 53).toBe(numbers());
        }
      }
    }
  });

  it('refuse a seed that is no count', () => {
    expect(() => randomWords(-1)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});
