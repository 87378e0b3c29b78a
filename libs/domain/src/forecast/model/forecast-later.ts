import type { RandomSource } from '../../statistics/seeded-random.js';
import { blendMembers, fitBlend, type Blend } from './blend.js';
import { forecastInputs } from './forecast-inputs.js';
import type { ForecastTask, Progress } from './forecast-task.js';
import { followLeague } from './follow-league.js';
import { fitGameSpread, followPlayers, type ForecastPart } from './follow-players.js';
import { fitMembers, type Found, type MemberForecasts } from './members.js';

export interface LaterForecasts {
  /** The pool's probabilities, moved by what each player and the league did before; plays x classes, filled at `rows`. */
  readonly probabilities: Float64Array;
  /** The same before anybody is followed: what the earlier games say alone. */
  readonly pooled: Float64Array;
  /** Each member's log probabilities, in the order of `MEMBERS`. */
  readonly members: readonly Float64Array[];
  /** Plays of the later games. */
  readonly rows: Int32Array;
  readonly blend: Blend;
  /** Variance between the games of a player by which players are followed, see `fitGameSpread`. */
  readonly gameSpread: number;
  readonly rounds: number;
}

/** Pool weights before anything is seen, in the order of `MEMBERS`; of two classes the trees hold the shares already. */
const PRIOR_OF_TWO = [0.6, 0.4, 0];
const PRIOR_OF_MORE = [0.45, 0.3, 0.25];

/** Shares of the games after which a fit is judged on what follows: fewer where there is more to judge by. */
const JUDGED_AFTER: readonly { readonly fromPlays: number; readonly shares: readonly number[] }[] = [
  { fromPlays: 20_000, shares: [0.8] },
  { fromPlays: 0, shares: [0.6, 0.8] },
];
/** A fit on more plays bears some more rounds than the one that they were counted on. */
const MORE_ROUNDS = 1.1;
const FEWEST_ROUNDS = 10;

/**
 * Forecasts the games from `untilGame` on from those before. Members are fitted on the first part of the earlier games
 * and judged on the rest, which settles how they are pooled, how far trees are boosted and how much a player's last plays
 * say; then they are fitted on all earlier games. Of the later games a play moves the forecasts of the same player's plays
 * after it, and with all of its round how bold later rounds are and how frequent a class.
 *
 * @param random - for the plays and features that each round of boosting draws
 */
export function forecastLater(
  task: ForecastTask,
  untilGame: number,
  random: RandomSource,
  progress: Progress,
): LaterForecasts {
  const { snaps, rows, outcome, classes } = task;
  const inputs = forecastInputs(snaps, task.target, task.sight);
  const trained = rows.filter((row) => (snaps.game[row] ?? 0) < untilGame).length;
  const shares = JUDGED_AFTER.find(({ fromPlays }) => trained >= fromPlays)?.shares ?? [];
  const judged = shares.flatMap((share, place): MemberForecasts[] => {
    const span = {
      untilGame: Math.round(share * untilGame),
      endGame: Math.round((shares[place + 1] ?? 1) * untilGame),
    };
    if (span.untilGame < 1 || span.endGame <= span.untilGame) return [];
    return [fitMembers(task, inputs, span, null, random, progress)];
  });
  const prior = classes === 2 ? PRIOR_OF_TWO : PRIOR_OF_MORE;
  const blend = fitBlend(judged, outcome, classes, prior);
  const asPart = ({ members, rows }: MemberForecasts): ForecastPart => ({
    probabilities: blendMembers(blend, members, rows, classes),
    rows,
  });
  const plays = { game: snaps.game, round: snaps.round, player: inputs.keys.player, outcome, classes };
  const gameSpread = fitGameSpread(
    judged.map((part) => asPart(part)),
    plays,
  );
  const found = pooledFindings(judged);
  const last = fitMembers(task, inputs, { untilGame, endGame: Infinity }, found, random, progress);
  const pooled = asPart(last);
  return {
    probabilities: followLeague({ ...pooled, probabilities: followPlayers(pooled, plays, gameSpread) }, plays),
    pooled: pooled.probabilities,
    members: last.members,
    rows: last.rows,
    blend,
    gameSpread,
    rounds: found.rounds,
  };
}

function pooledFindings(judged: readonly MemberForecasts[]): Found {
  const last = judged.at(-1)?.found;
  const mean = (of: (found: Found) => number): number =>
    judged.reduce((sum, { found }) => sum + of(found), 0) / Math.max(1, judged.length);
  return {
    rounds: Math.max(FEWEST_ROUNDS, Math.round(mean(({ rounds }) => rounds) * MORE_ROUNDS)),
    ridge: Math.exp(mean(({ ridge }) => Math.log(ridge))),
    orders: last?.orders ?? [],
    concentrations: last?.concentrations ?? [],
  };
}
