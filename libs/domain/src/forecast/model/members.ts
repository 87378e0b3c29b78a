import type { RandomSource } from '../../statistics/seeded-random.js';
import { calledSoFar } from '../features/called-so-far.js';
import type { FeatureColumn } from '../features/feature-column.js';
import { historyFeatures } from '../features/history-features.js';
import { designFor, planDesign, type Design } from '../logistic/design.js';
import { fitLogistic, scoreByLogistic } from '../logistic/fit-logistic.js';
import { contextOrders } from '../nested/context-orders.js';
import { fitMixture, mixShares } from '../nested/mix-shares.js';
import { fitConcentrations, nestedShares, type NestedOrder } from '../nested/nested-shares.js';
import { boostTrees, meanLoss, scoreByTrees, type BoostingSettings } from '../trees/boosted-trees.js';
import { CROSSES, PLAYER_CROSSES, RIDGE, RIDGES } from './crosses.js';
import type { ForecastInputs } from './forecast-inputs.js';
import type { ForecastTask, Progress } from './forecast-task.js';
import { historyGroups } from './history-groups.js';
import { logsOf, probabilitiesOf } from './probabilities.js';

/** The models that are pooled, in the order of the pool's weights. */
export const MEMBERS = ['boosted trees', 'logistic', 'nested shares'] as const;

/** Where one fit stops learning, and up to which game it forecasts. */
export interface Span {
  readonly untilGame: number;
  readonly endGame: number;
}

/** What a fit on fewer games found, so that the fit on more need not search again. */
export interface Found {
  readonly rounds: number;
  readonly ridge: number;
  readonly orders: readonly NestedOrder[];
  readonly concentrations: readonly (readonly number[])[];
}

export interface MemberForecasts {
  /** Log probabilities of each member, plays x classes, filled at `rows`. */
  readonly members: readonly Float64Array[];
  readonly rows: Int32Array;
  readonly found: Found;
}

/** On fewer plays a model sees itself in its own training plays, and how firmly it is drawn to nought matters. */
const isFew = (plays: number): boolean => plays < 25_000;
const BASE_FOLDS = 4;
/** With few plays one run of boosting differs from the next: the mean of several does not. */
const PLAYS_OF_ONE_RUN = 15_000;
const RUNS = 4;
const PATIENCE = 40;
const MOST_ROUNDS = 800;
const MOST_TREES = 2400;

/**
 * Leaves and rates for few and for many plays: round numbers that did well on the simulated leagues. Few plays bear few
 * leaves, but of two classes those are drawn to nought less, since the mean of several runs steadies them; a class of many
 * has too few plays for that.
 */
function boostingSettings(plays: number, classes: number): BoostingSettings {
  const firm = { categoryRidge: 10, playShare: 0.6, featureShare: 0.5, ridge: 10, leastCurvature: 8 };
  if (plays >= PLAYS_OF_ONE_RUN) return { ...firm, leaves: 16, learningRate: 0.06 };
  if (classes > 2) return { ...firm, leaves: 8, learningRate: 0.04 };
  return { ...firm, leaves: 6, learningRate: 0.04, ridge: 3, leastCurvature: 2 };
}

/**
 * Fits every member on the games before `untilGame` and forecasts the games from there to `endGame`. Whatever is learned
 * from outcomes (shares, histories, coefficients, trees) is learned from the earlier games alone; of a game that is
 * forecast its own earlier plays are known, as they are to somebody who watches.
 *
 * @param before - null to search for the number of rounds and the concentrations, watching the games that are forecast
 */
export function fitMembers(
  task: ForecastTask,
  inputs: ForecastInputs,
  { untilGame, endGame }: Span,
  before: Found | null,
  random: RandomSource,
  progress: Progress,
): MemberForecasts {
  const { snaps, outcome, classes } = task;
  const rows = task.rows.filter((row) => (snaps.game[row] ?? 0) < endGame);
  const train = rows.filter((row) => (snaps.game[row] ?? 0) < untilGame);
  const later = rows.filter((row) => (snaps.game[row] ?? 0) >= untilGame);
  const facts = { game: snaps.game, rows, outcome, classes, untilGame };

  progress(`nested shares of ${train.length} plays`);
  const orders = before?.orders ?? contextOrders(snaps, inputs.keys, inputs.visible, outcome, classes, train);
  const concentrations = before?.concentrations ?? orders.map((order) => fitConcentrations(facts, order));
  const shares = orders.map((order, place) => nestedShares(facts, order, concentrations[place] ?? []));
  const mixed = mixShares(shares, fitMixture(shares, outcome, classes, train), classes, later);

  progress('what is to be expected of anybody');
  const expected = expectedOfAnybody(task, inputs, train, later);
  const histories = historyFeatures({ ...facts, expected }, historyGroups(snaps, inputs.keys, classes));
  const columns = [...inputs.columns, ...histories, ...inputs.players];

  progress('logistic');
  // On few plays the histories say no more than the player's own crosses, and their splines cost more than they tell.
  const weighed = isFew(train.length) ? [...inputs.columns, ...inputs.players] : columns;
  const design = designFor(planDesign(weighed, [...CROSSES, ...PLAYER_CROSSES], train), weighed);
  const ridges = before === null ? ridgesFor(train.length) : [before.ridge];
  const { scores: logistic, ridge } = bestLogistic(task, design, train, later, ridges);

  // Of two classes trees do better without careers: what they split on would be a game old in training, but a season in use.
  const now = { game: snaps.game, player: inputs.keys.player, rows, outcome };
  const ofTrees = classes === 2 ? [...inputs.columns, ...inputs.players, ...calledSoFar(now)] : columns;
  const { scores, rounds } = boosted(task, ofTrees, train, later, before?.rounds ?? null, random, progress);
  return {
    rows: later,
    members: [
      logsOf(probabilitiesOf(scores, later, classes)),
      logsOf(probabilitiesOf(logistic, later, classes)),
      logsOf(mixed),
    ],
    found: { rounds, ridge, orders, concentrations },
  };
}

/** Probabilities that know the situation and the look but nobody's habits, for plays that did not teach them. */
function expectedOfAnybody(
  { snaps, outcome, classes }: ForecastTask,
  { columns }: ForecastInputs,
  train: Int32Array,
  later: Int32Array,
): Float64Array {
  const design = designFor(planDesign(columns, CROSSES, train), columns);
  const expected = new Float64Array(outcome.length * classes);
  const fill = (rows: Int32Array, from: Int32Array): void => {
    const scores = scoreByLogistic(fitLogistic(design, outcome, classes, from, RIDGE), design, rows);
    const probabilities = probabilitiesOf(scores, rows, classes);
    for (const row of rows) {
      expected.set(probabilities.subarray(row * classes, (row + 1) * classes), row * classes);
    }
  };
  if (!isFew(train.length)) {
    fill(Int32Array.from([...train, ...later]), train);
    return expected;
  }
  fill(later, train);
  for (let fold = 0; fold < BASE_FOLDS; fold += 1) {
    const isIn = (row: number): boolean => (snaps.game[row] ?? 0) % BASE_FOLDS === fold;
    fill(
      train.filter((row) => isIn(row)),
      train.filter((row) => !isIn(row)),
    );
  }
  return expected;
}

/** On many plays the penalty matters little, and each fit takes seconds. */
function ridgesFor(plays: number): readonly number[] {
  return isFew(plays) ? RIDGES : [RIDGE];
}

/** Of logistic models with these penalties the one that forecasts the later games best, as scores. */
function bestLogistic(
  { outcome, classes }: ForecastTask,
  design: Design,
  train: Int32Array,
  later: Int32Array,
  ridges: readonly number[],
): { readonly scores: Float64Array; readonly ridge: number } {
  const fits = ridges.map((ridge) => {
    const scores = scoreByLogistic(fitLogistic(design, outcome, classes, train, ridge), design, later);
    return { scores, ridge, loss: meanLoss(scores, outcome, classes, later) };
  });
  return fits.reduce((best, fit) => (fit.loss < best.loss ? fit : best));
}

function boosted(
  { outcome, classes }: ForecastTask,
  columns: readonly FeatureColumn[],
  train: Int32Array,
  later: Int32Array,
  rounds: number | null,
  random: RandomSource,
  progress: Progress,
): { readonly scores: Float64Array; readonly rounds: number } {
  const settings = boostingSettings(train.length, classes);
  if (rounds === null) {
    const most = classes === 2 ? MOST_ROUNDS : Math.max(20, Math.floor(MOST_TREES / classes));
    progress('boosted trees, watched on the next games');
    const watch = { rows: later, patience: PATIENCE };
    const model = boostTrees(columns, outcome, classes, train, settings, most, watch, random);
    return { scores: scoreByTrees(model, columns, later), rounds: model.rounds.length };
  }
  const runs = train.length < PLAYS_OF_ONE_RUN ? RUNS : 1;
  let scores: Float64Array = new Float64Array(0);
  for (let run = 0; run < runs; run += 1) {
    progress(`boosted trees, ${rounds} rounds${runs > 1 ? `, run ${run + 1} of ${runs}` : ''}`);
    const model = boostTrees(columns, outcome, classes, train, settings, rounds, null, random);
    const more = scoreByTrees(model, columns, later);
    scores = run === 0 ? more : scores.map((score, at) => (score * run + (more[at] ?? 0)) / (run + 1));
  }
  return { scores, rounds };
}
