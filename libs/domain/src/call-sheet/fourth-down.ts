import type { ExpectedPointsChain } from '../football/expected-points-chain.js';
import { drivesIn } from '../late-game/late-game.js';
import { assertCount } from '../statistics/guards.js';
import type { Interval } from '../statistics/interval.js';
import type { DrawnRate } from './drawn-rate.js';
import { CONVERSION_BANDS, KICK_BANDS, type Band, type OurFigures } from './our-figures.js';

/** A fourth down of ours. */
export interface FourthDown {
  /** Yards to go, 1 to 99. */
  readonly distance: number;
  /** 1 to 99. */
  readonly yardsToGoal: number;
  /** Ours less theirs; null leaves the score out of it. */
  readonly scoreDifference: number | null;
  /** Of the clock until the game ends; null leaves the clock out of it. */
  readonly secondsLeft: number | null;
  /** Of ours, each worth a stop of the clock. */
  readonly timeouts: number;
}

export interface Choice {
  readonly choice: 'go' | 'kick' | 'punt';
  /** What it is worth: points of the next score, ours above 0. */
  readonly points: number;
  /** From the interval of our chance; null for a punt, whose spread is not known. */
  readonly interval: Interval | null;
  /** Our chance that it works; null for a punt. */
  readonly rate: DrawnRate | null;
  /** Whether we are no longer behind once it works, a touchdown taken at the end of the drive; null without a score. */
  readonly catchesUp: boolean | null;
}

export interface FourthDownAdvice {
  /** The best by points first. */
  readonly choices: readonly Choice[];
  /**
   * What to do: the best by points, or of those that catch up where no further drive of ours is to be expected. Null
   * where the two best are as good as equal.
   */
  readonly best: Choice['choice'] | null;
  /** Drives left in all, this one counted; null without a clock. */
  readonly drivesLeft: number | null;
  /** What is believed rather than counted. */
  readonly guesses: readonly string[];
}

/** Points nearer than this are as good as equal: less than the error of any of the inputs. Common practice, no source. */
const AS_GOOD_AS_EQUAL = 0.15;
/** Kicks longer than this are not tried. */
const LONGEST_KICK = 42;
const [TOUCHDOWN, FIELD_GOAL] = [7, 3];

/**
 * Go, kick or punt, by the expected points of where each leaves the ball, with our own chances. Late in a game points are
 * not all: what does not catch up is set aside once no drive of ours is to be expected after this one.
 *
 * @throws DomainError `stats.invalid_count`
 * @see Romer (2006), J. Polit. Econ. 114, 340–365 (fourth downs by the value of the situations that follow)
 */
export function fourthDownAdvice(
  figures: OurFigures,
  chain: ExpectedPointsChain,
  situation: FourthDown,
): FourthDownAdvice {
  const { distance, yardsToGoal, scoreDifference, secondsLeft, timeouts } = situation;
  assertCount('distance', distance, { min: 1, max: 99 });
  assertCount('yardsToGoal', yardsToGoal, { min: 1, max: 99 });
  assertCount('timeouts', timeouts, { min: 0, max: 3 });
  const theirs = (spot: number): number => -chain.points(1, Math.min(10, spot), spot);
  const conversion = rateOf(figures.conversions, CONVERSION_BANDS, distance);
  const after = yardsToGoal - distance;
  const made = after <= 0 ? TOUCHDOWN : chain.points(1, Math.min(10, after), after);
  const catchesUp = (points: number): boolean | null =>
    scoreDifference === null ? null : scoreDifference + points >= 0;
  const choices: Choice[] = [chance('go', conversion, made, theirs(100 - yardsToGoal), catchesUp(TOUCHDOWN))];
  if (yardsToGoal <= LONGEST_KICK) {
    const kick = rateOf(figures.kicks, KICK_BANDS, yardsToGoal);
    choices.push(chance('kick', kick, FIELD_GOAL, theirs(Math.min(80, 100 - yardsToGoal)), catchesUp(FIELD_GOAL)));
  }
  const landing = yardsToGoal - figures.puntNet.mean;
  const punted = theirs(landing <= 0 ? 80 : Math.min(99, Math.round(100 - landing)));
  choices.push({ choice: 'punt', points: punted, interval: null, rate: null, catchesUp: catchesUp(0) });
  choices.sort((one, other) => other.points - one.points);
  const drivesLeft = secondsLeft === null ? null : 1 + drivesIn(figures, secondsLeft, timeouts);
  return {
    choices,
    best: bestOf(choices, scoreDifference, drivesLeft),
    drivesLeft,
    guesses: guessesIn(figures, choices, secondsLeft !== null, timeouts),
  };
}

function rateOf(rates: readonly DrawnRate[], bands: readonly Band[], value: number): DrawnRate {
  const rate = rates[bands.findIndex(({ upTo }) => value <= upTo)] ?? rates.at(-1);
  if (rate === undefined) throw new RangeError('there are no bands');
  return rate;
}

function chance(
  choice: 'go' | 'kick',
  rate: DrawnRate,
  works: number,
  fails: number,
  catchesUp: boolean | null,
): Choice {
  const at = (share: number): number => share * works + (1 - share) * fails;
  const [low, high] = [at(rate.interval.lower), at(rate.interval.upper)];
  return {
    choice,
    points: at(rate.share),
    interval: { lower: Math.min(low, high), upper: Math.max(low, high) },
    rate,
    catchesUp,
  };
}

/** With fewer than three drives in all, ours after this one is not to be expected. */
const LAST_OF_OURS = 3;

function bestOf(
  choices: readonly Choice[],
  scoreDifference: number | null,
  drivesLeft: number | null,
): FourthDownAdvice['best'] {
  const isLast = drivesLeft !== null && drivesLeft < LAST_OF_OURS && scoreDifference !== null && scoreDifference < 0;
  const left = isLast && choices.some(({ catchesUp }) => catchesUp === true);
  const able = left ? choices.filter(({ catchesUp }) => catchesUp === true) : choices;
  const [first, second] = able;
  if (first === undefined) return null;
  return second !== undefined && first.points - second.points < AS_GOOD_AS_EQUAL ? null : first.choice;
}

function guessesIn(
  { puntNet, secondsADrive }: OurFigures,
  choices: readonly Choice[],
  hasClock: boolean,
  timeouts: number,
): string[] {
  return [
    ...choices.flatMap(({ choice, rate }) =>
      rate?.isGuess === true ? [choice === 'go' ? 'our chance to convert' : 'our chance to make the kick'] : [],
    ),
    ...(puntNet.isGuess ? ['what a punt nets'] : []),
    ...(hasClock && secondsADrive.isGuess ? ['how long a drive takes'] : []),
    ...(hasClock && timeouts > 0 ? ['what a timeout saves'] : []),
    ...(hasClock ? ['that drives go on as before, however late it is'] : []),
  ];
}
