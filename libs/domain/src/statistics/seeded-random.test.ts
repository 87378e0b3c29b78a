import { seededRandom, splitMix64, xoshiro128StarStar } from './seeded-random.js';

const take = <Value>(count: number, next: () => Value): Value[] => Array.from({ length: count }, () => next());

describe('seeded random numbers', () => {
  // Output of the authors' xoshiro128starstar.c (v1.1) from the state 1, 2, 3, 4, as the public
  // test suite of the Rust crate rand_xoshiro quotes it; equality, these are integers.
  it('follows the reference output of xoshiro128**', () => {
    expect(take(10, xoshiro128StarStar([1, 2, 3, 4]))).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  // Rosetta Code, "Pseudo-random numbers/Splitmix64", seed 1234567.
  it('follows the reference output of SplitMix64', () => {
    expect(take(5, splitMix64(1234567n))).toEqual([
      6457827717110365317n,
      3203168211198807973n,
      9817491932198370423n,
      4593380528125082431n,
      16408922859458223821n,
    ]);
  });

  it('repeats itself for a seed and differs for its neighbour', () => {
    expect(take(100, seededRandom(7))).toEqual(take(100, seededRandom(7)));
    const other = new Set(take(100, seededRandom(8)));
    expect(take(100, seededRandom(7)).filter((value) => other.has(value))).toEqual([]);
  });

  it('fills [0, 1) evenly', () => {
    const bins = 20;
    const draws = 200_000;
    const counts = new Array<number>(bins).fill(0);
    for (const value of take(draws, seededRandom(11))) {
      if (value < 0 || value >= 1) throw new Error(`outside [0, 1): ${value}`);
      counts[Math.floor(value * bins)] = (counts[Math.floor(value * bins)] ?? 0) + 1;
    }
    const expected = draws / bins;
    const statistic = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    // 99.9 % point of chi-square with 19 degrees of freedom (R: qchisq(.999, 19)).
    expect(statistic).toBeLessThan(43.82);
  });

  it.each([-1, 0.5, 2 ** 53, Number.NaN])('refuses the seed %d', (seed) => {
    expect(() => seededRandom(seed)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});
