import { drawNormal } from '../statistics/draw-gamma.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { pooledGroups } from './pooled-means.js';

describe('means of games drawn together', () => {
  it('let no lucky snap lead before many plays that agree', () => {
    const usual = Array.from({ length: 12 }, () => [0.1, -0.1, 0.05, -0.05]);
    const held = Array.from({ length: 10 }, (_, play) => -0.6 - 0.02 * play);
    const pooled = pooledGroups([[-2], held, ...usual], 1.4);
    const [lucky, proven] = pooled;
    expect(proven?.estimate).toBeLessThan(lucky?.estimate ?? -Infinity);
    expect(lucky?.standardDeviation).toBeGreaterThan(proven?.standardDeviation ?? Infinity);
  });

  it('stay apart however alike they are, and stand alone where there are two', () => {
    const [first, second, third] = pooledGroups([[0.2, 0.1], [0.1], [0.15, 0.1, 0.2]], 1.4);
    expect(first?.estimate).not.toBe(second?.estimate);
    expect(third?.estimate).toBeGreaterThan(0.1);
    expect(pooledGroups([[1], [0, 2, 1, 1]], 4)).toEqual([
      { estimate: 1, standardDeviation: 2 },
      { estimate: 1, standardDeviation: 1 },
    ]);
  });

  it('hold the truth in about nine of ten intervals where games truly differ', () => {
    const random = seededRandom(71);
    let [held, all] = [0, 0];
    for (let league = 0; league < 40; league += 1) {
      const truth = Array.from({ length: 15 }, () => 0.4 * drawNormal(random));
      const groups = truth.map((mean) =>
        Array.from({ length: 1 + Math.floor(8 * random()) }, () => mean + 1.2 * drawNormal(random)),
      );
      pooledGroups(groups, 1.44).forEach(({ estimate, standardDeviation }, group) => {
        all += 1;
        if (Math.abs((truth[group] ?? 0) - estimate) <= 1.6449 * standardDeviation) held += 1;
      });
    }
    // Monte Carlo standard error 0.012 over 600 intervals, and games of one league go together.
    expect(held / all).toBeGreaterThan(0.86);
    expect(held / all).toBeLessThan(0.95);
  });
});
