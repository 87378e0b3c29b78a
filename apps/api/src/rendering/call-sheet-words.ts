import { KICK_BANDS, CONVERSION_BANDS, type OurFigures } from '#domain/call-sheet/our-figures.js';
import type { Average } from '#domain/call-sheet/drives-and-punts.js';
import type { DrawnRate } from '#domain/call-sheet/drawn-rate.js';
import type { FourthDownAdvice } from '#domain/call-sheet/fourth-down.js';
import type {
  CallSheet,
  ChangedCell,
  SheetCell,
  TheirFourthDowns,
  TheirHabit,
} from '#domain/call-sheet/call-sheet-shape.js';
import { signed } from '#domain/tendencies/words/count-words.js';
import type { ReportFilm } from './report-film.js';
import type { ReportNames } from './report-names.js';

/** A call sheet with all that is looked up when it is read. */
export interface ReadCallSheet {
  readonly sheet: CallSheet;
  /** Identities. */
  readonly playerId: string;
  readonly opponentId: string;
  readonly eventId: string;
  readonly round: string | null;
  readonly charts: readonly { readonly chartId: string; readonly gameId: string; readonly revision: number }[];
  readonly names: ReportNames;
  readonly film: ReportFilm;
}

/** `1 2 1 1 3 1 2 1`, the numbers being those of the cell's calls; nothing for a single call. */
export function orderWords({ order, calls }: SheetCell): string {
  return calls.length < 2 ? '' : order.map((place) => place + 1).join(' ');
}

/** `1 Umbra, 2 Matchbox`; a single call by its name alone. */
export function callsWords({ calls }: SheetCell): string {
  if (calls.length === 1) return calls[0]?.name ?? '';
  return calls.map(({ name }, place) => `${place + 1} ${name}`).join(', ');
}

/** `duo 3 of 14`. */
export function habitWords({ label, count, known }: TheirHabit): string {
  return `${label} ${count} of ${known}`;
}

/** `our defense on 2nd and 4-6: Umbra 5 of 8, Matchbox 3 of 8 in place of Bellows; +0.02 points a play if they stay; they: duo 3 of 14`. */
export function changeWords({ side, cell, change }: ChangedCell): string {
  const { title, calls, order, theirs } = cell;
  const turns = calls.map(({ name, turns }) => (calls.length === 1 ? name : `${name} ${turns} of ${order.length}`));
  return [
    `our ${side} on ${title}: ${turns.join(', ')} in place of ${change.from.join(', ')}`,
    `${signed(change.worth)} points a play if they stay`,
    ...(theirs.length === 0 ? [] : [`they: ${theirs.map(habitWords).join(', ')}`]),
  ].join('; ');
}

/** `GO`, `KICK`, `PUNT`, or the two that are as good as equal: `go/kick`. */
export function adviceWord(advice: FourthDownAdvice | null): string {
  if (advice === null) return '';
  if (advice.best !== null) return advice.best.toUpperCase();
  return advice.choices
    .slice(0, 2)
    .map(({ choice }) => choice)
    .join('/');
}

/** `ours 3 of 5, field 40 of 88, taken as 48 %`. */
export function rateWords({ own, field, share, isGuess }: DrawnRate): string {
  const words = `ours ${own.count} of ${own.known}, field ${field.count} of ${field.known}, taken as ${Math.round(share * 100)} %`;
  return isGuess ? `${words}, a guess` : words;
}

export function averageWords({ mean, of, isGuess }: Average, unit: string, what: string): string {
  return `${Math.round(mean)} ${unit}, from ${of} ${what}${isGuess ? ', a guess' : ''}`;
}

/** Our own chances, each a line. */
export function figureLines(figures: OurFigures): string[] {
  return [
    ...CONVERSION_BANDS.map(({ name }, band) => `Convert ${name} to go: ${rateOf(figures.conversions[band])}`),
    ...KICK_BANDS.map(({ name }, band) => `Kick from their ${name}: ${rateOf(figures.kicks[band])}`),
    `Two-point try: ${rateWords(figures.twoPoint)}`,
    `Kick after a touchdown: ${rateWords(figures.tryKick)}`,
    `Onside kick recovered: ${rateWords(figures.onside)}`,
    `Touchdown a drive: ${rateWords(figures.drives.touchdown)}`,
    `Field goal a drive: ${rateWords(figures.drives.fieldGoal)}`,
    `A punt nets ${averageWords(figures.puntNet, 'yards', 'punts')}`,
    `A drive takes ${averageWords(figures.secondsADrive, 'seconds', 'drives')}`,
  ];
}

function rateOf(rate: DrawnRate | undefined): string {
  return rate === undefined ? 'not known' : rateWords(rate);
}

/** `two points are worth 0.90 a try, the kick 0.95`. */
export function tryWords({ twoPoint, tryKick }: OurFigures): string {
  return `Two points are worth ${(2 * twoPoint.share).toFixed(2)} a try (ours ${twoPoint.own.count} of ${twoPoint.own.known}, field ${twoPoint.field.count} of ${twoPoint.field.known}), the kick ${tryKick.share.toFixed(2)}`;
}

/** `1 drive left: two at -5, -2, onside at -8, -4`: leads of ours, for a try with the touchdown counted. */
export function lateGameLines({ lateGame }: CallSheet): string[] {
  const at = (leads: readonly number[]): string => (leads.length === 0 ? 'nowhere' : leads.map(signedLead).join(', '));
  return lateGame.map(
    ({ drivesLeft, two, onside }) =>
      `${drivesLeft} ${drivesLeft === 1 ? 'drive' : 'drives'} left: two at ${at(two)}; onside at ${at(onside)}`,
  );
}

/** What the lines of leads mean. */
export const LATE_GAME_NOTE =
  'Late, by our lead, for a try with the touchdown counted; drives of both after it. Where nothing is named, kick.';

function signedLead(lead: number): string {
  return lead > 0 ? `+${lead}` : `${lead}`;
}

/** `2-3: went 4 of 6 (field 20 of 88)`. */
export function wentWords({ part, count, known, fieldCount, fieldKnown }: TheirFourthDowns): string {
  return `${part}: went ${count} of ${known} (field ${fieldCount} of ${fieldKnown})`;
}

export function leanWords(lean: number): string {
  return lean === 0 ? 'safe' : lean === 1 ? 'bold' : lean < 0.5 ? 'nearer safe' : 'nearer bold';
}
