import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { choiceMask, termMask, type PlayMask } from '../football/play-masks.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';
import { driveRates, type DriveRates } from '../late-game/drive-rates.js';
import { netPunts, secondsADrive, type Average, type GameLength } from './drives-and-punts.js';
import { drawnRate, type DrawnRate, type Attempts } from './drawn-rate.js';

/** Bands of a number, each up to and with its last one; what stands behind an unknown one is a guess. */
export interface Band {
  readonly name: string;
  readonly upTo: number;
  /** Believed before anything is charted. Common practice, no source. */
  readonly guess: number;
}

/** Third and fourth downs by yards to go. */
export const CONVERSION_BANDS: readonly Band[] = [
  { name: '1', upTo: 1, guess: 0.68 },
  { name: '2-3', upTo: 3, guess: 0.55 },
  { name: '4-6', upTo: 6, guess: 0.45 },
  { name: '7-10', upTo: 10, guess: 0.33 },
  { name: '11 or more', upTo: 99, guess: 0.2 },
];

/** Kicks at goal by yards to the goal line; the posts stand seventeen yards behind the spot of the snap. */
export const KICK_BANDS: readonly Band[] = [
  { name: '1-10', upTo: 10, guess: 0.96 },
  { name: '11-20', upTo: 20, guess: 0.9 },
  { name: '21-28', upTo: 28, guess: 0.78 },
  { name: '29-35', upTo: 35, guess: 0.62 },
  { name: '36-40', upTo: 40, guess: 0.42 },
  { name: '41 or more', upTo: 99, guess: 0.05 },
];

const TRIES = { twoPoint: 0.45, kick: 0.95, onside: 0.12 };

/** What we make of our chances, each drawn towards the field's. */
export interface OurFigures {
  /** By yards to go, aligned with CONVERSION_BANDS. */
  readonly conversions: readonly DrawnRate[];
  /** Aligned with KICK_BANDS. */
  readonly kicks: readonly DrawnRate[];
  readonly twoPoint: DrawnRate;
  readonly tryKick: DrawnRate;
  /** Onside kicks that the kicking side recovered. */
  readonly onside: DrawnRate;
  /** How drives end. */
  readonly drives: DriveRates;
  /** Yards that a punt moves the ball. */
  readonly puntNet: Average;
  /** Of the clock, either side's drive. */
  readonly secondsADrive: Average;
}

export interface FiguresInput {
  /** Every play of the field. */
  readonly facts: TendencyPlays;
  /** For each play the number of the player with the ball; -1 for nobody's. */
  readonly offenseOf: Int32Array;
  readonly players: number;
  /** Ours; -1 where the field has none. */
  readonly player: number;
  /** Length of the games whose every snap was charted, by place of the chart; null for the others. */
  readonly games: readonly (GameLength | null)[];
  readonly vocabulary: Vocabulary;
  /** Of every interval, in (0, 1). */
  readonly confidence: number;
}

/**
 * Our own conversion and kick figures, drawn towards the field's by how much its players differ, and the field's towards
 * a guess where it is thin. Third downs stand for fourth ones, which are too few.
 *
 * @throws DomainError `stats.invalid_probability`
 * @see fitBetaBinomial
 */
export function ourFigures(input: FiguresInput): OurFigures {
  const { facts, vocabulary } = input;
  const { plays, counts, success } = facts;
  const [downs, distances] = [plays.number('down').values, plays.number('distance').values];
  const spots = plays.number('yardsToGoal').values;
  const results = (...codes: readonly string[]): PlayMask =>
    termMask(
      plays,
      'snapResult',
      vocabulary,
      codes.map((code) => `snapResult.${code}`),
    );
  const good = results('kick-good');
  const missed = results('kick-missed', 'kick-blocked');
  const kicked: Attempts = (play) => (good[play] === 1 ? 1 : missed[play] === 1 ? 0 : -1);
  const of = (type: 'field goal' | 'try kick' | 'two-point try' | 'kickoff'): PlayMask =>
    choiceMask(plays, 'playType', [type]);
  const [goals, tries, twos, kickoffs] = [of('field goal'), of('try kick'), of('two-point try'), of('kickoff')];
  const ours = results('onside-recovered-by-the-kickers');
  const theirs = results('onside-recovered-by-the-receivers');
  const tryGood = goodTries(facts, vocabulary);
  const rate = (guess: number, attempts: Attempts): DrawnRate => drawnRate(input, guess, attempts);
  return {
    conversions: CONVERSION_BANDS.map(({ upTo, guess }, band) => {
      const from = CONVERSION_BANDS[band - 1]?.upTo ?? 0;
      return rate(guess, (play) => {
        const distance = distances[play] ?? UNKNOWN_NUMBER;
        const isAsked = counts[play] === 1 && (downs[play] === 3 || downs[play] === 4);
        return isAsked && distance > from && distance <= upTo ? (success[play] ?? -1) : -1;
      });
    }),
    kicks: KICK_BANDS.map(({ upTo, guess }, band) => {
      const from = KICK_BANDS[band - 1]?.upTo ?? 0;
      return rate(guess, (play) => {
        const spot = spots[play] ?? UNKNOWN_NUMBER;
        return goals[play] === 1 && spot > from && spot <= upTo ? kicked(play) : -1;
      });
    }),
    twoPoint: rate(TRIES.twoPoint, (play) => (twos[play] === 1 ? tryGood(play) : -1)),
    tryKick: rate(TRIES.kick, (play) => (tries[play] === 1 ? Math.max(kicked(play), tryGood(play)) : -1)),
    onside: rate(TRIES.onside, (play) =>
      kickoffs[play] !== 1 ? -1 : ours[play] === 1 ? 1 : theirs[play] === 1 ? 0 : -1,
    ),
    drives: driveRates(input),
    puntNet: netPunts(input),
    secondsADrive: secondsADrive(input),
  };
}

function goodTries({ plays }: TendencyPlays, vocabulary: Vocabulary): Attempts {
  const [good, failed] = [vocabulary.idOfCode('ledTo.try-good'), vocabulary.idOfCode('ledTo.try-failed')];
  const { starts, codes, meanings } = plays.list('ledTo');
  return (play) => {
    for (let at = starts[play] ?? 0; at < (starts[play + 1] ?? 0); at += 1) {
      const meaning = meanings[codes[at] ?? -1];
      if (meaning === good) return 1;
      if (meaning === failed) return 0;
    }
    return -1;
  };
}
