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
 * How far a player may be off the forecast in all of the games that follow, and how much of that is new in each, as parts
 * of the variance between games: callers change, and habits drift on. Round numbers that did well on simulated leagues,
 * where any from a tenth to one do; no source.
 */
const OWN_SPREAD = 0.5;
const DRIFT = 0.1;

/**
 * How far apart the games of a player are, beyond what was forecast: plans of the day, a new caller, a season's drift.
 * The variance with which `followPlayers` forecasts the judged plays best, held to a prior.
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
      loss: parts.reduce((sum, part) => sum + lossOf(followPlayers(part, plays, spread), part, plays), held),
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

/** A player in a game; every array has one entry a class. */
interface Followed {
  /** How far off the forecast the player's earlier games were, and the variance that is left of that. */
  readonly own: Float64Array;
  readonly doubt: Float64Array;
  /** Of the game so far: outcomes less what was expected with the player's own offset, and their information. */
  readonly excess: Float64Array;
  readonly information: Float64Array;
}

/**
 * Moves forecasts by what the player did before: each class's score has an offset that a player keeps from game to game,
 * drifting on, and one of its own in each game, both drawn around 0. The posterior mean of their sum after the plays so
 * far is added: earlier games by a Kalman filter, this one by one Newton step from there, outcomes less forecasts over
 * their information and the prior's. The offsets of the classes add up to 0, hence the factor. No play counts for itself
 * nor for one before it. Where the player is not known the forecast stays.
 *
 * @param spread - variance of the offsets of games, above 0
 * @returns probabilities, plays x classes, filled at the part's rows
 * @see Morris (1983), J. Am. Stat. Assoc. 78, 47–55 (empirical Bayes); Breslow & Clayton (1993), J. Am. Stat. Assoc. 88,
 *   9–25 (random effects in logistic models by one quadratic step); Kalman (1960), J. Basic Eng. 82, 35–45; Fahrmeir
 *   (1992), J. Am. Stat. Assoc. 87, 501–509 (the filter for outcomes that are classes, by the same step)
 */
export function followPlayers({ probabilities, rows }: ForecastPart, plays: JudgedPlays, spread: number): Float64Array {
  const { outcome, classes } = plays;
  const moved = Float64Array.from(probabilities);
  const factor = classes / Math.max(1, classes - 1);
  const players = new Map<number, Followed>();
  const begin = (player: number): Followed => {
    const before = players.get(player);
    const next = before === undefined ? newcomer(classes, spread) : afterGame(before, factor, spread);
    players.set(player, next);
    return next;
  };
  const expected = new Float64Array(classes);
  visitPlayerGames(plays, rows, begin, (row, { own, doubt, excess, information }) => {
    const base = row * classes;
    let sum = 0;
    for (let k = 0; k < classes; k += 1) {
      sum += expected[k] = (probabilities[base + k] ?? 0) * Math.exp(own[k] ?? 0);
    }
    let sumMoved = 0;
    for (let k = 0; k < classes; k += 1) {
      const forecast = (expected[k] ?? 0) / sum;
      const offset = (excess[k] ?? 0) / (factor * (information[k] ?? 0) + 1 / (spread + (doubt[k] ?? 0)));
      sumMoved += moved[base + k] = forecast * Math.exp(offset);
      excess[k] = (excess[k] ?? 0) + (outcome[row] === k ? 1 : 0) - forecast;
      information[k] = (information[k] ?? 0) + forecast * (1 - forecast);
    }
    for (let k = 0; k < classes; k += 1) moved[base + k] = (moved[base + k] ?? 0) / sumMoved;
  });
  return moved;
}

function newcomer(classes: number, spread: number): Followed {
  return {
    own: new Float64Array(classes),
    doubt: new Float64Array(classes).fill(OWN_SPREAD * spread),
    excess: new Float64Array(classes),
    information: new Float64Array(classes),
  };
}

/** The same player as the next game begins. A game is an observation of the own offset, off by its plan and by its luck. */
function afterGame({ own, doubt, excess, information }: Followed, factor: number, spread: number): Followed {
  const next = newcomer(own.length, spread);
  for (let k = 0; k < own.length; k += 1) {
    const before = doubt[k] ?? 0;
    const precision = factor * (information[k] ?? 0);
    // The gain over the precision, so that a game whose plays told nothing changes nothing.
    const step = before / (precision * (before + spread) + 1);
    next.own[k] = (own[k] ?? 0) + step * (excess[k] ?? 0);
    next.doubt[k] = before - step * precision * before + DRIFT * spread;
  }
  return next;
}
