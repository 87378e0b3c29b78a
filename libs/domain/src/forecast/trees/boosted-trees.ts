import type { RandomSource } from '../../statistics/seeded-random.js';
import type { FeatureColumn } from '../features/feature-column.js';
import { binColumn, fitBinning, type Binning } from './binned-features.js';
import { growTree, type TreeSettings } from './grow-tree.js';
import { addTree, type Tree } from './tree.js';

export interface BoostingSettings extends TreeSettings {
  /** Share of the training plays that each round learns from. */
  readonly playShare: number;
  /** Share of the features that each tree may split on. */
  readonly featureShare: number;
}

/** Trees by round, one for each score: one score with two classes, else one a class. */
export interface BoostedTrees {
  readonly binnings: readonly Binning[];
  readonly start: Float64Array;
  readonly rounds: readonly (readonly Tree[])[];
  readonly classes: number;
}

/** Where the loss on later plays is watched while rounds are added. */
export interface Watch {
  readonly rows: Int32Array;
  /** Rounds without a better loss after which no more are added. */
  readonly patience: number;
}

/**
 * Gradient-boosted trees for the probability of each class, fitted by the logistic (two classes) or softmax loss.
 *
 * @param columns  - features, one value a play of the whole batch
 * @param outcome  - class of each play, 0 to classes - 1; read at `rows` and at the watched plays only
 * @param rows     - training plays
 * @param rounds   - most rounds
 * @param watch    - null to add all rounds
 * @param progress - told of each finished round
 * @returns the trees; with a watch cut back to the round with the least watched loss
 * @see Friedman (2001), Ann. Stat. 29, 1189–1232; Friedman (2002), Comput. Stat. Data Anal. 38, 367–378
 */
export function boostTrees(
  columns: readonly FeatureColumn[],
  outcome: Int32Array,
  classes: number,
  rows: Int32Array,
  settings: BoostingSettings,
  rounds: number,
  watch: Watch | null,
  random: RandomSource,
): BoostedTrees {
  const binnings = columns.map((column) => fitBinning(column, rows));
  const features = columns.map((column, place) => binColumn(column, binnings[place] ?? NO_BINS));
  const stride = classes === 2 ? 1 : classes;
  const start = startScores(outcome, classes, rows);
  const plays = outcome.length;
  const scores = new Float64Array(plays * stride);
  for (let row = 0; row < plays; row += 1) scores.set(start, row * stride);
  const gradients = Array.from({ length: stride }, () => new Float64Array(plays));
  const curvatures = Array.from({ length: stride }, () => new Float64Array(plays));
  const done: Tree[][] = [];
  let best = { loss: Infinity, rounds: 0 };
  const usable = Int32Array.from(binnings.keys()).filter((place) => (binnings[place]?.bins ?? 0) > 2);
  for (let round = 0; round < rounds; round += 1) {
    derivatives(scores, outcome, classes, rows, gradients, curvatures);
    const trees: Tree[] = [];
    const sample = pick(rows, settings.playShare, random);
    for (let score = 0; score < stride; score += 1) {
      const use = pick(usable, settings.featureShare, random);
      const tree = growTree(
        ...([features, binnings, use, sample] as const),
        gradients[score] ?? NO_NUMBERS,
        curvatures[score] ?? NO_NUMBERS,
        settings,
      );
      addTree(tree, features, rows, scores, stride, score);
      if (watch !== null) addTree(tree, features, watch.rows, scores, stride, score);
      trees.push(tree);
    }
    done.push(trees);
    if (watch === null) continue;
    const loss = meanLoss(scores, outcome, classes, watch.rows);
    if (loss < best.loss) best = { loss, rounds: round + 1 };
    else if (round + 1 - best.rounds >= watch.patience) break;
  }
  return { binnings, start, classes, rounds: watch === null ? done : done.slice(0, best.rounds) };
}

/** Scores of these plays: stride 1 (log odds of class 1) or one a class, at the plays' places in the whole batch. */
export function scoreByTrees(model: BoostedTrees, columns: readonly FeatureColumn[], rows: Int32Array): Float64Array {
  const features = columns.map((column, place) => binColumn(column, model.binnings[place] ?? NO_BINS));
  const stride = model.classes === 2 ? 1 : model.classes;
  const plays = columns[0]?.values.length ?? 0;
  const scores = new Float64Array(plays * stride);
  for (const row of rows) scores.set(model.start, row * stride);
  for (const trees of model.rounds) {
    trees.forEach((tree, score) => {
      addTree(tree, features, rows, scores, stride, score);
    });
  }
  return scores;
}

const NO_BINS: Binning = { isCategory: false, edges: new Float64Array(0), bins: 1 };
const NO_NUMBERS = new Float64Array(0);

/** Half a play of each class keeps a class without plays finite. */
function startScores(outcome: Int32Array, classes: number, rows: Int32Array): Float64Array {
  const counts = new Float64Array(classes).fill(0.5);
  for (const row of rows) {
    const seen = outcome[row] ?? 0;
    counts[seen] = (counts[seen] ?? 0) + 1;
  }
  if (classes === 2) return Float64Array.of(Math.log((counts[1] ?? 1) / (counts[0] ?? 1)));
  const total = rows.length + classes / 2;
  return counts.map((count) => Math.log(count / total));
}

function derivatives(
  scores: Float64Array,
  outcome: Int32Array,
  classes: number,
  rows: Int32Array,
  gradients: readonly Float64Array[],
  curvatures: readonly Float64Array[],
): void {
  if (classes === 2) {
    const [gradient, curvature] = [gradients[0] ?? NO_NUMBERS, curvatures[0] ?? NO_NUMBERS];
    for (const row of rows) {
      const p = 1 / (1 + Math.exp(-(scores[row] ?? 0)));
      gradient[row] = p - (outcome[row] ?? 0);
      curvature[row] = p * (1 - p);
    }
    return;
  }
  const exps = new Float64Array(classes);
  for (const row of rows) {
    let sum = 0;
    for (let k = 0; k < classes; k += 1) sum += exps[k] = Math.exp(scores[row * classes + k] ?? 0);
    for (let k = 0; k < classes; k += 1) {
      const p = (exps[k] ?? 0) / sum;
      const [gradient, curvature] = [gradients[k], curvatures[k]];
      if (gradient !== undefined) gradient[row] = p - (outcome[row] === k ? 1 : 0);
      if (curvature !== undefined) curvature[row] = p * (1 - p);
    }
  }
}

/** Log loss of scores as `scoreByTrees` gives them, a play. */
export function meanLoss(scores: Float64Array, outcome: Int32Array, classes: number, rows: Int32Array): number {
  let loss = 0;
  for (const row of rows) {
    if (classes === 2) {
      const score = outcome[row] === 1 ? (scores[row] ?? 0) : -(scores[row] ?? 0);
      loss += Math.log1p(Math.exp(-Math.abs(score))) + Math.max(0, -score);
      continue;
    }
    let sum = 0;
    for (let k = 0; k < classes; k += 1) sum += Math.exp(scores[row * classes + k] ?? 0);
    loss += Math.log(sum) - (scores[row * classes + (outcome[row] ?? 0)] ?? 0);
  }
  return loss / Math.max(1, rows.length);
}

/** A share of the entries, drawn without replacement, in their order. */
function pick(from: Int32Array, share: number, random: RandomSource): Int32Array {
  if (share >= 1) return Int32Array.from(from);
  const wanted = Math.max(1, Math.round(from.length * share));
  const taken = new Int32Array(wanted);
  let left = wanted;
  for (let at = 0; at < from.length && left > 0; at += 1) {
    if (random() * (from.length - at) < left) {
      taken[wanted - left] = from[at] ?? 0;
      left -= 1;
    }
  }
  return taken;
}
