import { bracketedRoot } from '../statistics/bracketed-root.js';

export interface Pooled {
  readonly estimate: number;
  readonly standardDeviation: number;
}

/** `pooledMeans` of groups of which the values are there. @param groups - at least one value a group */
export function pooledGroups(groups: readonly (readonly number[])[], residual: number): Pooled[] {
  return pooledMeans(
    groups.map((values) => values.reduce((sum, value) => sum + value, 0) / values.length),
    groups.map(({ length }) => length),
    residual,
  );
}

/**
 * Means of groups of plays, drawn towards each other as far as they are alike. The spread of plays is taken as known, from
 * the whole archive: groups of one play each could not tell it from the spread of groups. A variance between groups of
 * exactly 0 would put all of them level, and is what likelihood alone often says of a few plays; so it is kept off 0.
 *
 * @param means    - one a group
 * @param sizes    - plays of each, ≥ 1
 * @param residual - variance of a play's value, above 0
 * @see Patterson & Thompson (1971), Biometrika 58, 545–554 (restricted likelihood); Chung, Rabe-Hesketh, Dorie, Gelman &
 *   Liu (2013), Psychometrika 78, 685–709 (kept off 0)
 */
export function pooledMeans(means: readonly number[], sizes: readonly number[], residual: number): Pooled[] {
  const errorOf = (group: number): number => residual / (sizes[group] ?? 1);
  if (means.length < 3) {
    return means.map((estimate, group) => ({ estimate, standardDeviation: Math.sqrt(errorOf(group)) }));
  }
  const alike = bySize(means, sizes);
  const profile = (between: number): { mean: number; precision: number; slope: number } => {
    let [precision, weighted] = [0, 0];
    for (const { size, groups, sum } of alike) {
      const weight = 1 / (between + residual / size);
      precision += groups * weight;
      weighted += weight * sum;
    }
    const mean = weighted / precision;
    let slope = 1 / between;
    for (const { size, groups, sum, squares } of alike) {
      const weight = 1 / (between + residual / size);
      const apart = squares - 2 * mean * sum + groups * mean * mean;
      slope += weight ** 2 * (apart + groups / precision) - groups * weight;
    }
    return { mean, precision, slope };
  };
  // From far below any spread that matters to where the slope has turned, which it does from three groups on.
  const low = residual * SMALLEST_BETWEEN;
  let high = residual;
  while (profile(high).slope > 0) high *= 4;
  const between = bracketedRoot((variance) => profile(variance).slope, low, high, low);
  const { mean, precision } = profile(between);
  return means.map((own, group) => {
    const error = errorOf(group);
    const weight = between / (between + error);
    return {
      estimate: mean + weight * (own - mean),
      // The mean that a group is drawn to is not known exactly either.
      standardDeviation: Math.sqrt(weight * error + (1 - weight) ** 2 / precision),
    };
  });
}

const SMALLEST_BETWEEN = 1e-6;

/** Groups of one size weigh alike, and a frequent call of a large archive was met in thousands of games of few plays each. */
interface AlikeGroups {
  readonly size: number;
  groups: number;
  /** Of their means. */
  sum: number;
  squares: number;
}

function bySize(means: readonly number[], sizes: readonly number[]): readonly AlikeGroups[] {
  const found = new Map<number, AlikeGroups>();
  for (const [group, mean] of means.entries()) {
    const size = sizes[group] ?? 1;
    const alike = found.get(size) ?? { size, groups: 0, sum: 0, squares: 0 };
    found.set(size, alike);
    alike.groups += 1;
    alike.sum += mean;
    alike.squares += mean * mean;
  }
  return [...found.values()];
}
