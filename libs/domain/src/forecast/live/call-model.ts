import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import type { FeatureColumn } from '../features/feature-column.js';
import { quarterLength, type SnapFacts } from '../forecast-snaps.js';
import { designFor, planDesign, type DesignPlan } from '../logistic/design.js';
import { fitLogistic, scoreByLogistic, type LogisticModel } from '../logistic/fit-logistic.js';
import { CROSSES, PLAYER_CROSSES, RIDGE } from '../model/crosses.js';
import { forecastInputs } from '../model/forecast-inputs.js';
import { probabilitiesOf } from '../model/probabilities.js';
import { sideOfTarget, type ForecastTarget } from '../targets.js';
import { outcomeOf, type CallArchive } from './call-archive.js';
import type { ModelSays } from './next-call.js';

/** A logistic model of an archive's calls: what is left of the archive is its coefficients and how to use them. */
export interface CallModel {
  readonly target: ForecastTarget;
  readonly classes: number;
  readonly plan: DesignPlan;
  readonly logistic: LogisticModel;
  readonly quarterSeconds: number;
  /** The calls that it was fitted on: how many of each class, of how many games. */
  readonly counts: Float64Array;
  readonly games: number;
}

/** Fewer calls than this fit no model that beats counting; round number from the simulated leagues. */
export const FEWEST_TO_MODEL = 400;
/** The newest so many are learned from: enough, and soon fitted. */
const MOST_TO_MODEL = 20_000;

/**
 * Fits a ridge logistic model of everything that may be seen before the target: the situation with splines, what shows,
 * the game so far, and the player crossed with down and look.
 *
 * @returns null where the archive is too thin
 */
export function fitCallModel(archive: CallArchive): CallModel | null {
  const { target, facts, rows, classOf, names, playerOf } = archive;
  if (rows.length < FEWEST_TO_MODEL || names.length < 2) return null;
  // Charts stand newest first.
  const newest = rows.subarray(0, MOST_TO_MODEL);
  const quarterSeconds = quarterLength(facts.plays);
  const columns = columnsOf(target, facts, playerOf, quarterSeconds);
  const plan = planDesign(columns, [...CROSSES, ...PLAYER_CROSSES], newest);
  const design = designFor(plan, columns);
  const logistic = fitLogistic(design, outcomeOf(archive), names.length, newest, RIDGE);
  const counts = new Float64Array(names.length);
  for (const seen of classOf.subarray(0, newest.length)) counts[seen] = (counts[seen] ?? 0) + 1;
  const games = new Set(Array.from(newest, (row) => facts.plays.chartIndex[row])).size;
  return { target, classes: names.length, plan, logistic, quarterSeconds, counts, games };
}

/**
 * What the model says of each play of a game: of the earlier ones, to see how today differs, and of the one to come.
 *
 * @param player - number of the player in the archive, -1 for one it does not know
 * @returns shares of the classes, play by play, and what they were learned from
 */
export function askModel(
  { target, classes, plan, logistic, quarterSeconds, counts, games }: CallModel,
  player: number,
  facts: TendencyPlays,
): ModelSays {
  const { count } = facts.plays;
  const columns = columnsOf(target, facts, new Int32Array(count).fill(player), quarterSeconds);
  const every = Int32Array.from({ length: count }, (_, play) => play);
  const scores = scoreByLogistic(logistic, designFor(plan, columns), every);
  return { shares: probabilitiesOf(scores, every, classes), counts, games };
}

function columnsOf(
  target: ForecastTarget,
  facts: TendencyPlays,
  playerOf: Int32Array,
  quarterSeconds: number,
): readonly FeatureColumn[] {
  const { plays, counts, called, success } = facts;
  const nobody = new Int32Array(plays.count).fill(-1);
  // Whoever has the ball is told apart within a game, for what was called before; across games only the player counts.
  const hasBall = sideOfTarget(target) === 'offense' ? playerOf : Int32Array.from(plays.offenseIsHome);
  const defense = sideOfTarget(target) === 'offense' ? nobody : playerOf;
  const who = { game: plays.chartIndex, offense: hasBall, defense };
  const snaps: SnapFacts = { plays, ...who, counts, called, success, quarterSeconds };
  const { columns, players } = forecastInputs(snaps, target, 'line');
  return [...columns, ...players.filter(({ name }) => name === 'player')];
}
