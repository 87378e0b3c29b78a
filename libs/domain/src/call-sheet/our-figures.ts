import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { bandNames, DEFAULT_SITUATIONS } from '../football/situations.js';
import { choiceMask, termMask, type PlayMask } from '../football/play-masks.js';
import { elementAt } from '../statistics/element-at.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';
import { driveRates, driveTallies, type DriveRates, type DriveTallies } from '../late-game/drive-rates.js';
import { netPunts, secondsADrive, type Average, type GameLength } from './drives-and-punts.js';
import {
  drawnRate,
  tallied,
  type Attempting,
  type Attempts,
  type DrawnRate,
  type Tally,
  type Whose,
} from './drawn-rate.js';

/** Bands of a number, each up to and with its last one; what stands behind an unknown one is a guess. */
export interface Band {
  readonly name: string;
  readonly upTo: number;
  /** Believed before anything is charted. Common practice, no source. */
  readonly guess: number;
}

const { fourthDownBands } = DEFAULT_SITUATIONS;
const CONVERSION_GUESSES = [0.68, 0.55, 0.42, 0.27];

/** Third and fourth downs by yards to go, in the bands in which everybody's fourth downs are told. */
export const CONVERSION_BANDS: readonly Band[] = bandNames(fourthDownBands).map((name, band) => ({
  name,
  upTo: fourthDownBands[band] ?? 99,
  guess: elementAt(CONVERSION_GUESSES, band),
}));

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

/** What chances are counted from. */
export interface FiguresInput extends Attempting {
  /** Every play of the field. */
  readonly facts: TendencyPlays;
  /** Length of the games whose every snap was charted, by place of the chart; null for the others. */
  readonly games: readonly (GameLength | null)[];
  readonly vocabulary: Vocabulary;
}

/** Attempts of everybody, counted once for all who are asked about; parts as in OurFigures. */
export interface FieldFigures {
  readonly conversions: readonly Tally[];
  readonly kicks: readonly Tally[];
  readonly twoPoint: Tally;
  readonly tryKick: Tally;
  readonly onside: Tally;
  readonly drives: DriveTallies;
  readonly puntNet: Average;
  readonly secondsADrive: Average;
}

/** Counts a field's attempts. Third downs stand for fourth ones, which are too few. */
export function fieldFigures(input: FiguresInput): FieldFigures {
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
  const ofType = (type: 'field goal' | 'try kick' | 'two-point try' | 'kickoff'): PlayMask =>
    choiceMask(plays, 'playType', [type]);
  const [goals, tries, twos, kickoffs] = [
    ofType('field goal'),
    ofType('try kick'),
    ofType('two-point try'),
    ofType('kickoff'),
  ];
  const ours = results('onside-recovered-by-the-kickers');
  const theirs = results('onside-recovered-by-the-receivers');
  const tryGood = goodTries(facts, vocabulary);
  const of = (attempts: Attempts): Tally => tallied(input, attempts);
  return {
    conversions: CONVERSION_BANDS.map(({ upTo }, band) => {
      const from = CONVERSION_BANDS[band - 1]?.upTo ?? 0;
      return of((play) => {
        const distance = distances[play] ?? UNKNOWN_NUMBER;
        const isAsked = counts[play] === 1 && (downs[play] === 3 || downs[play] === 4);
        return isAsked && distance > from && distance <= upTo ? (success[play] ?? -1) : -1;
      });
    }),
    kicks: KICK_BANDS.map(({ upTo }, band) => {
      const from = KICK_BANDS[band - 1]?.upTo ?? 0;
      return of((play) => {
        const spot = spots[play] ?? UNKNOWN_NUMBER;
        return goals[play] === 1 && spot > from && spot <= upTo ? kicked(play) : -1;
      });
    }),
    twoPoint: of((play) => (twos[play] === 1 ? tryGood(play) : -1)),
    tryKick: of((play) => (tries[play] === 1 ? Math.max(kicked(play), tryGood(play)) : -1)),
    onside: of((play) => (kickoffs[play] !== 1 ? -1 : ours[play] === 1 ? 1 : theirs[play] === 1 ? 0 : -1)),
    drives: driveTallies(input),
    puntNet: netPunts(input),
    secondsADrive: secondsADrive(input),
  };
}

/**
 * Our own conversion and kick figures, drawn towards the field's by how much its players differ, and the field's towards
 * a guess where it is thin.
 *
 * @throws DomainError `stats.invalid_probability`
 * @see fitBetaBinomial
 */
export function ourFigures(field: FieldFigures, whose: Whose): OurFigures {
  const banded = (tallies: readonly Tally[], bands: readonly Band[]): DrawnRate[] =>
    bands.map(({ guess }, band) => drawnRate(elementAt(tallies, band), whose, guess));
  return {
    conversions: banded(field.conversions, CONVERSION_BANDS),
    kicks: banded(field.kicks, KICK_BANDS),
    twoPoint: drawnRate(field.twoPoint, whose, TRIES.twoPoint),
    tryKick: drawnRate(field.tryKick, whose, TRIES.kick),
    onside: drawnRate(field.onside, whose, TRIES.onside),
    drives: driveRates(field.drives, whose),
    puntNet: field.puntNet,
    secondsADrive: field.secondsADrive,
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
