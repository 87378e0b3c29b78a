import { DomainError } from '../domain-error.js';
import { elementAt } from './element-at.js';
import { assertCount, assertLength, assertSameLength } from './guards.js';
import type { RandomSource } from './seeded-random.js';
import { shuffled } from './shuffle.js';

/**
 * What may change places when nothing is going on: `any` label with any other; labels `within-cluster`,
 * where games differ and plays of one do not; or `whole-cluster` labels, where a label belongs to a game
 * and all its plays carry it.
 */
export type Exchange = 'any' | 'within-cluster' | 'whole-cluster';

export interface PermutationPlan {
  readonly exchange: Exchange;
  /** The cluster (game) of each play, in the order of the labels; ignored for `any`. */
  readonly clusters: readonly string[];
  /** Integer ≥ 1; the smallest p-value possible is 1 / (permutations + 1). */
  readonly permutations: number;
}

export interface PermutationResult {
  readonly observed: number;
  /** (1 + permutations that reach the observed value) / (1 + permutations): never 0. */
  readonly pValue: number;
}

// Two orders of the same sum differ by rounding only.
const SAME_STATISTIC = 1e-12;

/**
 * One-sided permutation test of any statistic of labels: how often chance does as well. Plays of one game
 * share more than their labels, so shuffle what could really have fallen otherwise.
 *
 * @param labels    - one per play, at least two
 * @param statistic - of labels in the order of plays; the larger, the more is going on
 * @param plan      - what moves, and how often
 * @param random    - uniform source
 * @throws DomainError `stats.invalid_shape` where clusters and labels do not match, or a whole cluster has two
 *         labels; `stats.invalid_count`; `stats.undefined_statistic` where the statistic is not a number
 * @see Phipson & Smyth (2010), Stat. Appl. Genet. Mol. Biol. 9, article 39; Good (2005), Permutation, Parametric and Bootstrap Tests, 3rd ed.
 */
export function permutationTest<Label extends string | number | boolean>(
  labels: readonly Label[],
  statistic: (labels: readonly Label[]) => number,
  { exchange, clusters, permutations }: PermutationPlan,
  random: RandomSource,
): PermutationResult {
  assertLength('labels', labels, { min: 2 });
  assertCount('permutations', permutations, { min: 1 });
  if (exchange !== 'any') assertSameLength('clusters', clusters, labels.length);

  const draw = exchange === 'any' ? () => shuffled(random, labels) : clusterDraw(labels, clusters, exchange, random);
  const observed = evaluate(statistic, labels);
  const enough = observed - SAME_STATISTIC * Math.abs(observed);
  let reached = 0;
  for (let permutation = 0; permutation < permutations; permutation += 1) {
    if (evaluate(statistic, draw()) >= enough) reached += 1;
  }
  return { observed, pValue: (1 + reached) / (1 + permutations) };
}

function clusterDraw<Label>(
  labels: readonly Label[],
  clusters: readonly string[],
  exchange: 'within-cluster' | 'whole-cluster',
  random: RandomSource,
): () => Label[] {
  const places = new Map<string, number[]>();
  for (const [place, cluster] of clusters.entries()) places.set(cluster, [...(places.get(cluster) ?? []), place]);
  const groups = [...places.values()];
  const put = (result: Label[], group: readonly number[], values: readonly Label[]): void => {
    for (const [index, place] of group.entries()) result[place] = elementAt(values, index);
  };

  if (exchange === 'within-cluster') {
    return () => {
      const result = [...labels];
      for (const group of groups)
        put(
          result,
          group,
          shuffled(
            random,
            group.map((place) => elementAt(labels, place)),
          ),
        );
      return result;
    };
  }
  const clusterLabels = groups.map((group) => onlyLabel(group.map((place) => elementAt(labels, place))));
  return () => {
    const result = [...labels];
    for (const [index, label] of shuffled(random, clusterLabels).entries()) {
      const group = elementAt(groups, index);
      put(
        result,
        group,
        group.map(() => label),
      );
    }
    return result;
  };
}

function onlyLabel<Label>(labels: readonly Label[]): Label {
  if (new Set(labels).size !== 1) {
    throw new DomainError('stats.invalid_shape', 'a cluster that moves as a whole has more than one label', { labels });
  }
  return elementAt(labels, 0);
}

function evaluate<Label>(statistic: (labels: readonly Label[]) => number, labels: readonly Label[]): number {
  const value = statistic(labels);
  if (Number.isNaN(value)) throw new DomainError('stats.undefined_statistic', 'the statistic is not a number');
  return value;
}
