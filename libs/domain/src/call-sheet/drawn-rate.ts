import { betaQuantile } from '../statistics/distributions.js';
import { fitBetaBinomial } from '../statistics/fit-beta-binomial.js';
import type { Interval } from '../statistics/interval.js';
import type { Counted } from '../tendencies/decisions/counted-share.js';

/** How each play went: 1 good, 0 not, -1 no attempt, or not known. */
export type Attempts = (play: number) => number;

/** A chance of ours, drawn towards the field's. */
export interface DrawnRate {
  readonly own: Counted;
  /** Everybody else's. */
  readonly field: Counted;
  readonly share: number;
  readonly interval: Interval;
  /** Rests on fewer than ten attempts of anybody: little more than what was believed before. */
  readonly isGuess: boolean;
}

/** Attempts of everybody, one entry a player. */
export interface Tally {
  readonly known: Int32Array;
  readonly good: Int32Array;
}

/** Whose plays are whose. */
export interface Attempting {
  /** For each play the number of the player with the ball; -1 for nobody's. */
  readonly offenseOf: Int32Array;
  readonly players: number;
}

/** Of whom a chance is told. */
export interface Whose {
  /** -1 for a stranger. */
  readonly player: number;
  readonly confidence: number;
}

/** Attempts that a guess is worth. Common practice, no source. */
const GUESS_WEIGHT = 4;
/** Attempts that the field is worth where too few players tried for it to be fitted. Common practice, no source. */
const USUAL_WEIGHT = 20;
/** Players who never differ would drown what we did ourselves; so many attempts are most of a season's. */
const MOST_WEIGHT = 200;
const FEW = 10;

export function tallied({ offenseOf, players }: Attempting, attempts: Attempts): Tally {
  const known = new Int32Array(players);
  const good = new Int32Array(players);
  for (let play = 0; play < offenseOf.length; play += 1) {
    const whose = offenseOf[play] ?? -1;
    const outcome = whose < 0 ? -1 : attempts(play);
    if (outcome < 0) continue;
    known[whose] = (known[whose] ?? 0) + 1;
    good[whose] = (good[whose] ?? 0) + outcome;
  }
  return { known, good };
}

/**
 * A share of attempts that went well, drawn to the field's with the weight by which players differ.
 *
 * @param guess - in (0, 1), believed before
 * @see Griffiths (1973), Biometrics 29, 637–648; the posterior of a Beta prior, whose interval is its quantiles
 */
export function drawnRate({ known, good }: Tally, { player, confidence }: Whose, guess: number): DrawnRate {
  const own = { count: good[player] ?? 0, known: known[player] ?? 0 };
  const field = {
    count: good.reduce((sum, count) => sum + count, 0) - own.count,
    known: known.reduce((sum, count) => sum + count, 0) - own.known,
  };
  const prior = (field.count + GUESS_WEIGHT * guess) / (field.known + GUESS_WEIGHT);
  const weight = weightOf(known, good, player);
  const alpha = own.count + weight * prior;
  const beta = own.known - own.count + weight * (1 - prior);
  return {
    own,
    field,
    share: alpha / (alpha + beta),
    interval: {
      lower: betaQuantile((1 - confidence) / 2, alpha, beta),
      upper: betaQuantile((1 + confidence) / 2, alpha, beta),
    },
    isGuess: own.known + field.known < FEW,
  };
}

function weightOf(known: Int32Array, good: Int32Array, player: number): number {
  const groups = Array.from(known, (trials, whose) => ({ trials, successes: good[whose] ?? 0 })).filter(
    ({ trials }, whose) => whose !== player && trials > 0,
  );
  const trials = groups.reduce((sum, group) => sum + group.trials, 0);
  const successes = groups.reduce((sum, group) => sum + group.successes, 0);
  if (groups.length < 3 || successes === 0 || successes === trials) return USUAL_WEIGHT;
  return Math.min(MOST_WEIGHT, fitBetaBinomial(groups).concentration);
}
