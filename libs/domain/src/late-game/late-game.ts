import type { OurFigures } from '../call-sheet/our-figures.js';
import { clockAdvice, type ClockAdvice, type ClockSituation } from './clock-advice.js';
import { outcomesOf } from './drive-rates.js';
import { fromMidfield, onsideAdvice, twoPointAdvice, type Comparison } from './tries-and-kickoffs.js';
import { WinChance, type Scorer } from './win-chance.js';

/** Late in a game of ours. */
export interface LateGame extends Omit<ClockSituation, 'secondsLeft' | 'endsGame'> {
  /** Of the game. */
  readonly secondsLeft: number;
  /** Of the half, where it ends before the game. */
  readonly secondsOfHalf: number | null;
  /** Whether the run-off is the event's own, or what is usual. */
  readonly runOffKnown: boolean;
}

/** A choice, and whether it stands over the whole interval of the chance that it hangs on. */
export interface Weighed<Choice extends string> extends Comparison<Choice> {
  readonly stands: boolean;
}

export interface LateAdvice {
  /** Left of both after the try or the kick. */
  readonly drivesLeft: number;
  /** As if the touchdown were counted in the lead. */
  readonly twoPoint: Weighed<'kick' | 'two'>;
  readonly onside: Weighed<'deep' | 'onside'>;
  readonly clock: ClockAdvice;
  readonly guesses: readonly string[];
}

/** Seconds that a timeout keeps on the clock. Common practice, no source. */
const SECONDS_A_TIMEOUT = 25;

/**
 * Two points or one, onside or deep, and what to do with the clock, by our own figures and the opponent's.
 *
 * @throws DomainError `stats.invalid_count`
 * @see WinChance, clockAdvice
 */
export function lateGameAdvice(ours: OurFigures, theirs: OurFigures, situation: LateGame): LateAdvice {
  const { lead, secondsLeft, secondsOfHalf, ourTimeouts } = situation;
  const drivesLeft = drivesIn(ours, secondsLeft, ourTimeouts);
  return {
    drivesLeft,
    twoPoint: weighedTry(ours, theirs, lead, drivesLeft),
    onside: weighedKick(ours, theirs, lead, drivesLeft),
    clock: clockAdvice({
      ...situation,
      secondsLeft: secondsOfHalf ?? secondsLeft,
      endsGame: secondsOfHalf === null,
    }),
    guesses: guessesIn(ours, theirs, situation),
  };
}

/** Drives of both that fit into what is left; each timeout of ours is worth a stop of the clock. */
export function drivesIn({ secondsADrive }: OurFigures, secondsLeft: number, timeouts: number): number {
  return (secondsLeft + SECONDS_A_TIMEOUT * timeouts) / secondsADrive.mean;
}

export function weighedTry(
  ours: OurFigures,
  theirs: OurFigures,
  lead: number,
  drives: number,
): Weighed<'kick' | 'two'> {
  const { share, interval } = ours.twoPoint;
  const at = (twoPoint: number): Comparison<'kick' | 'two'> => {
    const us = scorer(ours);
    return twoPointAdvice(new WinChance({ ...us, tries: { ...us.tries, twoPoint } }, scorer(theirs)), lead, drives);
  };
  return weighed(at(share), at(interval.lower), at(interval.upper));
}

export function weighedKick(
  ours: OurFigures,
  theirs: OurFigures,
  lead: number,
  drives: number,
): Weighed<'deep' | 'onside'> {
  const [us, them] = [scorer(ours), scorer(theirs)];
  const chance = new WinChance(us, them);
  const { share, interval } = ours.onside;
  const at = (recovered: number): Comparison<'deep' | 'onside'> =>
    onsideAdvice(chance, lead, drives, { recovered, ours: fromMidfield(us.drive), theirs: fromMidfield(them.drive) });
  return weighed(at(share), at(interval.lower), at(interval.upper));
}

function weighed<Choice extends string>(
  advice: Comparison<Choice>,
  ...ends: readonly Comparison<Choice>[]
): Weighed<Choice> {
  return { ...advice, stands: advice.best !== null && ends.every(({ best }) => best === advice.best) };
}

function scorer({ drives, twoPoint, tryKick }: OurFigures): Scorer {
  return { drive: outcomesOf(drives), tries: { twoPoint: twoPoint.share, kick: tryKick.share } };
}

function guessesIn(ours: OurFigures, theirs: OurFigures, { ourTimeouts, runOffKnown }: LateGame): string[] {
  const believed = [
    ['our chance of two points', ours.twoPoint.isGuess],
    ['our chance of the kick', ours.tryKick.isGuess],
    ['that we recover an onside kick', ours.onside.isGuess],
    ['how our drives end', ours.drives.touchdown.isGuess],
    ['how their drives end', theirs.drives.touchdown.isGuess],
    ['how long a drive takes', ours.secondsADrive.isGuess],
    ['what a timeout saves', ourTimeouts > 0],
    ['how much of the clock runs between two snaps', !runOffKnown],
    ['what a drive from midfield is worth', true],
    ['that drives are alike and go by turns', true],
    ['that overtime is even', true],
  ] as const;
  return believed.flatMap(([what, is]) => (is ? [what] : []));
}
