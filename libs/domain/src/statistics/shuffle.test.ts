import fc from 'fast-check';
import { seededRandom } from './seeded-random.js';
import { shuffled } from './shuffle.js';

describe('shuffled', () => {
  it('keeps the elements and leaves its argument alone', () => {
    fc.assert(
      fc.property(fc.array(fc.integer()), fc.nat(), (values, seed) => {
        const before = [...values];
        const result = shuffled(seededRandom(seed), values);
        expect(result.toSorted((first, second) => first - second)).toEqual(
          values.toSorted((first, second) => first - second),
        );
        expect(values).toEqual(before);
      }),
    );
  });

  it('reaches the 24 orders of four elements equally often', () => {
    const random = seededRandom(51);
    const draws = 24_000;
    const seen = new Map<string, number>();
    for (let draw = 0; draw < draws; draw += 1) {
      const order = shuffled(random, ['a', 'b', 'c', 'd']).join('');
      seen.set(order, (seen.get(order) ?? 0) + 1);
    }
    expect(seen.size).toBe(24);
    const statistic = [...seen.values()].reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    // 99.9 % point of chi-square with 23 degrees of freedom (R: qchisq(.999, 23)).
    expect(statistic).toBeLessThan(49.73);
  });
});
