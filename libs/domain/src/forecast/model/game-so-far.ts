import { visitPlayerGames, type PlaysInGames } from '../features/player-games.js';

/** Plays, and how many classes their outcomes have: 0 to classes - 1. */
export interface JudgedPlays extends PlaysInGames {
  readonly classes: number;
}

/** Forecasts of some plays: probabilities, plays x classes, filled at `rows`, which ascend. */
export interface ForecastPart {
  readonly probabilities: Float64Array;
  readonly rows: Int32Array;
}

/**
 * What is taken for the variance of a class's score from game to game where nothing has been judged, and how firmly it is
 * held: the curvature of the loss in the logarithm of the variance. The log odds of two classes then have twice this
 * variance, a standard deviation of 0.25. Round numbers that did well on simulated leagues; no source.
 */
const SPREAD = 0.03;
const FIRM_ON_SPREAD = 4;
const DOUBLINGS = Array.from({ length: 13 }, (_, place) => (place - 6) / 2);

/**
 * How far apart the games of a player are, beyond what was forecast: plans of the day, a new caller, a season's drift.
 * The variance with which `followGame` forecasts the judged plays best, held to a prior.
 *
 * @param parts - forecasts of games that had taught nothing to whoever forecast them
 * @returns variance of a class's score between games, above 0
 */
export function fitGameSpread(parts: readonly ForecastPart[], plays: JudgedPlays): number {
  const tried = DOUBLINGS.map((doublings) => {
    const spread = SPREAD * 2 ** doublings;
    const held = (FIRM_ON_SPREAD * Math.log(spread / SPREAD) ** 2) / 2;
    return {
      spread,
      loss: parts.reduce((sum, part) => sum + lossOf(followGame(part, plays, spread), part, plays), held),
    };
  });
  return tried.reduce((best, one) => (one.loss < best.loss ? one : best)).spread;
}

function lossOf(probabilities: Float64Array, { rows }: ForecastPart, { outcome, classes }: JudgedPlays): number {
  let loss = 0;
  for (const row of rows) {
    loss -= Math.log(Math.max(probabilities[row * classes + (outcome[row] ?? 0)] ?? 0, Number.MIN_VALUE));
  }
  return loss;
}

/**
 * Moves forecasts by what the player did earlier in the same game: each class's score has an offset of its own a game and
 * player, drawn around 0, whose posterior mean after the plays so far is added. One Newton step from 0: outcomes less
 * forecasts over their information and the prior's; the offsets add up to 0, hence the factor. No play counts for itself
 * nor for one before it, and nothing outlasts the game. Where the player is not known the forecast stays.
 *
 * @param spread - variance of the offsets, above 0
 * @returns probabilities, plays x classes, filled at the part's rows
 * @see Morris (1983), J. Am. Stat. Assoc. 78, 47–55 (empirical Bayes); Breslow & Clayton (1993), J. Am. Stat. Assoc. 88,
 *   9–25 (random effects in logistic models by one quadratic step)
 */
export function followGame({ probabilities, rows }: ForecastPart, plays: JudgedPlays, spread: number): Float64Array {
  const { outcome, classes } = plays;
  const moved = Float64Array.from(probabilities);
  const factor = classes / Math.max(1, classes - 1);
  const begin = (): { readonly excess: Float64Array; readonly information: Float64Array } => ({
    excess: new Float64Array(classes),
    information: new Float64Array(classes),
  });
  visitPlayerGames(plays, rows, begin, (row, { excess, information }) => {
    const base = row * classes;
    let sum = 0;
    for (let k = 0; k < classes; k += 1) {
      const offset = (excess[k] ?? 0) / (factor * (information[k] ?? 0) + 1 / spread);
      sum += moved[base + k] = (probabilities[base + k] ?? 0) * Math.exp(offset);
    }
    for (let k = 0; k < classes; k += 1) {
      const forecast = probabilities[base + k] ?? 0;
      moved[base + k] = (moved[base + k] ?? 0) / sum;
      excess[k] = (excess[k] ?? 0) + (outcome[row] === k ? 1 : 0) - forecast;
      information[k] = (information[k] ?? 0) + forecast * (1 - forecast);
    }
  });
  return moved;
}
