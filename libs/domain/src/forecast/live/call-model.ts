import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import { earlierCalls, NOTHING_EARLIER, type EarlierCalls } from '../features/earlier-features.js';
import type { FeatureColumn } from '../features/feature-column.js';
import { knownCodes } from '../features/situation-features.js';
import { quarterLength, type SnapFacts } from '../forecast-snaps.js';
import { designFor, planDesign, type DesignPlan } from '../logistic/design.js';
import { fitLogistic, scoreColumns, type LogisticModel } from '../logistic/fit-logistic.js';
import { CROSSES, PLAYER_CROSSES, RIDGE } from '../model/crosses.js';
import { forecastColumns } from '../model/forecast-inputs.js';
import { probabilitiesOf } from '../model/probabilities.js';
import { sideOfTarget, type ForecastTarget } from '../targets.js';
import { countCalls, outcomeOf, type CallArchive, type CountedCalls } from './call-archive.js';
import type { GameSoFar, GameTold, ModelSays } from './game-in-progress.js';

/** A logistic model of an archive's calls: what is left of the archive is its coefficients and how to use them. */
export interface CallModel {
  readonly target: ForecastTarget;
  readonly classes: number;
  readonly plan: DesignPlan;
  readonly logistic: LogisticModel;
  readonly quarterSeconds: number;
  /** The calls that it was fitted on. */
  readonly taught: CountedCalls;
}

/** The part of an archive that a model is fitted to. */
export type ModelledCalls = Pick<CallArchive, 'target' | 'facts' | 'rows' | 'classOf' | 'names' | 'playerOf'>;

/** Name of the column that says whose habit a play shows. */
const PLAYER = 'player';
/** Fewer calls than this fit no model that beats counting; round number from the simulated leagues. */
export const FEWEST_TO_MODEL = 400;
/** The newest so many are learned from: enough, and soon fitted. */
const MOST_TO_MODEL = 20_000;

/**
 * Fits a ridge logistic model of everything that may be seen before the target: the situation with splines, what shows,
 * the game so far, and the player crossed with down and look.
 *
 * @param tolerance - of the fit, where it may be done sooner; see `minimise`
 * @returns null where the archive is too thin
 */
export function fitCallModel(archive: ModelledCalls, tolerance?: number): CallModel | null {
  const { target, facts, rows, names, playerOf } = archive;
  if (rows.length < FEWEST_TO_MODEL || names.length < 2) return null;
  // Charts stand newest first.
  const newest = rows.subarray(0, MOST_TO_MODEL);
  const quarterSeconds = quarterLength(facts.plays);
  const columns = columnsOf(target, snapsOf(target, facts, playerOf, quarterSeconds));
  const plan = planDesign(columns, [...CROSSES, ...PLAYER_CROSSES], newest);
  const design = designFor(plan, columns);
  const logistic = fitLogistic(design, outcomeOf(archive), names.length, newest, RIDGE, tolerance);
  const taught = countCalls(archive, newest.keys());
  return { target, classes: names.length, plan, logistic, quarterSeconds, taught };
}

/**
 * What the model says of the snap to come, and how far the game's calls so far are off what it said of those.
 *
 * @param player - number of the player in the archive, -1 for one it does not know
 * @param before - of the snaps before the first of these: what was told then
 */
export function askModel(
  model: CallModel,
  player: number,
  { facts, classOf }: GameSoFar,
  before: GameTold | null = null,
): ModelSays {
  const { target, classes, quarterSeconds, taught } = model;
  const last = facts.plays.count - 1;
  const snaps = snapsOf(target, facts, new Int32Array(last + 1).fill(player), quarterSeconds);
  const said = sharesOfAll(model, columnsOf(target, snaps, before?.earlier), last + 1);
  const shares = said.slice(last * classes);
  // Another look at the same snap: nothing was called since.
  if (last === 0 && before !== null) return { shares, taught, told: before };
  const counts = before?.counts.slice() ?? new Float64Array(classes);
  const expected = before?.expected.slice() ?? new Float64Array(classes);
  let known = before?.known ?? 0;
  for (let play = 0; play < last; play += 1) {
    const seen = classOf[play] ?? -1;
    if (seen < 0 || facts.counts[play] !== 1) continue;
    known += 1;
    counts[seen] = (counts[seen] ?? 0) + 1;
    for (let k = 0; k < classes; k += 1) expected[k] = (expected[k] ?? 0) + (said[play * classes + k] ?? 0);
  }
  const earlier = earlierCalls(snaps, last, before?.earlier ?? NOTHING_EARLIER);
  return { shares, taught, told: { earlier, known, counts, expected } };
}

/**
 * What the model says of plays of an archive, had one player called them all: the situation, what showed and the game so
 * far are those of each play.
 *
 * @param playerOf - whose plays they are
 * @param player   - number of the player in the archive that the model was fitted to, -1 for one of whom nothing is known
 * @returns shares, plays x classes
 */
export function askOfPlays(model: CallModel, facts: TendencyPlays, playerOf: Int32Array, player: number): Float64Array {
  const { target, quarterSeconds } = model;
  const { count } = facts.plays;
  const theirs = knownCodes(new Int32Array(count).fill(player));
  const columns = columnsOf(target, snapsOf(target, facts, playerOf, quarterSeconds)).map((column) =>
    column.name === PLAYER ? { ...column, values: theirs } : column,
  );
  return sharesOfAll(model, columns, count);
}

function sharesOfAll(
  { plan, logistic, classes }: CallModel,
  columns: readonly FeatureColumn[],
  count: number,
): Float64Array {
  const every = new Int32Array(count);
  for (let play = 0; play < count; play += 1) every[play] = play;
  return probabilitiesOf(scoreColumns(logistic, plan, columns), every, classes);
}

function snapsOf(
  target: ForecastTarget,
  facts: TendencyPlays,
  playerOf: Int32Array,
  quarterSeconds: number,
): SnapFacts {
  const { plays, counts, called, success } = facts;
  const nobody = new Int32Array(plays.count).fill(-1);
  // Whoever has the ball is told apart within a game, for what was called before; across games only the player counts.
  const hasBall = sideOfTarget(target) === 'offense' ? playerOf : Int32Array.from(plays.offenseIsHome);
  const defense = sideOfTarget(target) === 'offense' ? nobody : playerOf;
  return { plays, game: plays.chartIndex, offense: hasBall, defense, counts, called, success, quarterSeconds };
}

function columnsOf(target: ForecastTarget, snaps: SnapFacts, before?: EarlierCalls): readonly FeatureColumn[] {
  const { columns, players } = forecastColumns(snaps, target, 'line', before);
  return [...columns, ...players.filter(({ name }) => name === PLAYER)];
}
