import { DomainError } from '../domain-error.js';
import type { RandomSource } from '../statistics/seeded-random.js';
import { gameCount, type ForecastSnaps } from './forecast-snaps.js';
import { forecastLater } from './model/forecast-later.js';
import type { Progress } from './model/forecast-task.js';
import { MEMBERS } from './model/members.js';
import { contextKeys } from './nested/context-orders.js';
import { baselines } from './scoring/baselines.js';
import { calibrationLine, type CalibrationLine } from './scoring/calibration-line.js';
import { calibrationOf, type Calibration } from './scoring/calibration.js';
import { forecastScores, playLosses, type ForecastScores, type ScoredPlays } from './scoring/forecast-scores.js';
import { lossDifference, type LossDifference } from './scoring/loss-difference.js';
import { targetClasses } from './target-classes.js';
import { fieldOfTarget, sideOfTarget, targetPlays, type ForecastTarget, type Sight } from './targets.js';

export interface ForecastEvaluation {
  readonly target: ForecastTarget;
  readonly sight: Sight;
  readonly classes: readonly string[];
  readonly trainGames: number;
  readonly trainPlays: number;
  readonly testGames: number;
  readonly model: ForecastScores;
  readonly calibration: Calibration;
  /** Null where there is too little variety to draw a line. */
  readonly line: CalibrationLine | null;
  /** Each beside the model's loss less its own. */
  readonly baselines: readonly {
    readonly name: string;
    readonly scores: ForecastScores;
    readonly lead: LossDifference;
  }[];
  /** The model without following anybody over the games that it is judged on: what the earlier games say alone. */
  readonly unfollowed: ForecastScores;
  /** The models that were pooled, each by itself, with its weight. */
  readonly members: readonly { readonly name: string; readonly scores: ForecastScores; readonly weight: number }[];
}

/** Of everything that is given with an interval here. */
export const EVALUATION_CONFIDENCE = 0.95;
const RESAMPLES = 2000;
const FEWEST_GAMES = 4;

/**
 * Trains on the first games in time order and judges on the rest, beside simple baselines trained on the same games. A play
 * that is judged has told its player's later plays what was called, as it would have by then (`followPlayers`), and later
 * rounds how the forecasts held (`followLeague`).
 *
 * @param split - share of the games to train on, in (0, 1)
 * @param random - of the boosting and the bootstrap
 * @throws DomainError `forecast.too_little` unless at least three games can be learned from and one be judged on, with
 *   plays whose target is known in both
 */
export function evaluateForecast(
  snaps: ForecastSnaps,
  target: ForecastTarget,
  sight: Sight,
  split: number,
  random: RandomSource,
  progress: Progress,
): ForecastEvaluation {
  const plays = targetPlays(snaps, target);
  const games = gameCount(snaps);
  const untilGame = Math.min(games - 1, Math.max(FEWEST_GAMES - 1, Math.round(split * games)));
  const isEarlier = (row: number): boolean => (snaps.game[row] ?? 0) < untilGame;
  const train = plays.rows.filter((row) => isEarlier(row));
  const test = plays.rows.filter((row) => !isEarlier(row));
  if (games < FEWEST_GAMES || train.length === 0 || test.length === 0) {
    const words =
      `too little for ${target}: ${games} games where ${FEWEST_GAMES} are needed, and of the plays with a known ` +
      `${fieldOfTarget(target)} ${train.length} to learn from and ${test.length} to judge on`;
    throw new DomainError('forecast.too_little', words, {
      games,
      playsToLearnFrom: train.length,
      playsToJudgeOn: test.length,
    });
  }
  const { names, outcome } = targetClasses(target, plays, train, snaps.vocabulary);
  const classes = names.length;
  const forecasts = forecastLater(
    { snaps, target, sight, rows: plays.rows, outcome, classes },
    untilGame,
    random,
    progress,
  );
  progress('scores');
  const game = Int32Array.from(test, (row) => snaps.game[row] ?? 0);
  const seen = Int32Array.from(test, (row) => outcome[row] ?? 0);
  const asScored = (probabilities: Float64Array): ScoredPlays => ({
    probabilities: atRows(probabilities, test, classes),
    outcome: seen,
    classes,
  });
  const model = asScored(forecasts.probabilities);
  const losses = playLosses(model);
  const keys = contextKeys(snaps, sideOfTarget(target));
  const simple = baselines({ outcome, classes, train, test, ...keys, formation: formationKeys(snaps) });
  return {
    ...{ target, sight, classes: names, trainGames: untilGame, trainPlays: train.length, testGames: games - untilGame },
    model: forecastScores(model),
    calibration: calibrationOf(model, random),
    line: calibrationLine(model, game, EVALUATION_CONFIDENCE),
    baselines: simple.map(({ name, probabilities }) => {
      const scored = asScored(probabilities);
      const lead = lossDifference(losses, playLosses(scored), game, EVALUATION_CONFIDENCE, RESAMPLES, random);
      return { name, scores: forecastScores(scored), lead };
    }),
    unfollowed: forecastScores(asScored(forecasts.pooled)),
    members: forecasts.members.map((logs, place) => ({
      name: MEMBERS[place] ?? '',
      scores: forecastScores(asScored(logs.map((log) => Math.exp(log)))),
      weight: forecasts.blend.weights[place] ?? 0,
    })),
  };
}

/** The formation; where a sheet has none, where the backs stand. */
function formationKeys({ plays }: ForecastSnaps): Int32Array {
  return Int32Array.from(plays.code(plays.columns.has('formation') ? 'formation' : 'backfield').codes);
}

function atRows(values: Float64Array, rows: Int32Array, classes: number): Float64Array {
  const picked = new Float64Array(rows.length * classes);
  rows.forEach((row, place) => {
    picked.set(values.subarray(row * classes, (row + 1) * classes), place * classes);
  });
  return picked;
}
