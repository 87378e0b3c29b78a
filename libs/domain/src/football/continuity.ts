import { coversAllSnaps, type FilmScope } from '../charting/film-scope.js';
import type { PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { ANYTHING, type DriveStep, type NextSnap } from './next-snap.js';
import { nextSnaps } from './next-snaps.js';
import { playReader, type PlayFacts } from './play-facts.js';
import { playOrder } from './play-order.js';

export const CONTINUITY_FIELDS = ['playType', 'possession', 'down', 'distance', 'yardsToGoal', 'drive'] as const;
export type ContinuityField = (typeof CONTINUITY_FIELDS)[number];

/** A play that does not follow from the one before it. A question to the charter, never a correction. */
export interface ContinuityBreak {
  readonly playNumber: number;
  readonly orderInGame: number;
  readonly previousPlayNumber: number;
  readonly field: ContinuityField;
  /** As charted: a number, or a word for possession (`home`, `away`) and play type. */
  readonly found: number | string;
  /** What would follow; the likeliest where several things would. */
  readonly expected: number | string;
  /** The same in a sentence. */
  readonly message: string;
}

/** Graphics show whole yards, so that a spot may be off by one. */
const TOLERATED_YARDS = 1;

/**
 * The plays of one chart that do not follow from the play before: down, distance, spot (within one yard), possession and
 * drive, and the play type where the rules fix it (a try after a touchdown, a kickoff after a score). Common practice,
 * no source.
 *
 * Compared are plays whose order in the game is consecutive and that the scope makes neighbours: with the whole film
 * every pair, otherwise only where what must come next lies inside the scope too. An unknown field breaks nothing; what
 * it leaves open is open, and of several ways to go on the nearest to the chart counts. A foul that is not charted did
 * not happen, unless the scope says that fouls were not looked for: then nothing is compared. A chart without any
 * kickoff, or without any try, is taken to leave them out. Across halves a kickoff is expected and nothing else; across
 * overtime periods, and after a score or a change of possession inside one, rule books differ and nothing is.
 *
 * On a kickoff or free kick the kicking side is the one with the ball, as on a punt. The length of a kick is counted
 * from the spot of the snap or of the kickoff.
 *
 * @param plays     - one chart, in any order; a batch of several is compared chart by chart
 * @param filmScope - how much of the film the chart covers
 * @returns breaks in the order of the game, one for each field that does not follow; charts are never mended
 */
export function continuityBreaks(
  plays: PlayColumns,
  filmScope: FilmScope,
  vocabulary: Vocabulary,
): readonly ContinuityBreak[] {
  const { fields } = filmScope;
  if (fields !== null && !fields.includes('foul') && !fields.includes('foulAnswer')) return [];
  const read = playReader(plays, vocabulary);
  const facts = Array.from(playOrder(plays), read);
  const habits = {
    kickoffs: facts.some((play) => play?.kind === 'kickoff'),
    tries: facts.some((play) => play?.kind === 'try'),
  };
  return facts.flatMap((next, place) => {
    const previous = facts[place - 1] ?? null;
    if (next === null || previous === null) return [];
    if (next.chart !== previous.chart || next.orderInGame !== previous.orderInGame + 1) return [];
    const ways = waysOn(previous, next, filmScope)?.flatMap((way) => asCharted(way, habits)) ?? [];
    if (ways.length === 0 || !mustBeNeighbours(ways, previous, next, filmScope)) return [];
    return leastBroken(ways.map((way) => breaksOf(way, previous, next)));
  });
}

/** What may come next, given the quarters of both plays; null where rule books differ too much to say. */
function waysOn(previous: PlayFacts, next: PlayFacts, filmScope: FilmScope): readonly NextSnap[] | null {
  if (previous.ledTo?.has('end-of-game') === true || previous.ledTo?.has('conceded-or-disconnected') === true) {
    return null;
  }
  const before = previous.quarter;
  const after = next.quarter;
  const known = before !== null && after !== null;
  if (known && after < before) return null;
  if ((before ?? 0) > 4 || (after ?? 0) > 4) {
    const keeps = nextSnaps(previous).every((way) => way.kind === 'down' && way.offense === previous.offense);
    return before === after && keeps ? nextSnaps(previous) : null;
  }
  if (known && before <= 2 && after >= 3) return [NEW_HALF];
  const mayBeNewHalf = !known || previous.ledTo?.has('end-of-half') === true;
  const ways = mayBeNewHalf ? [...nextSnaps(previous), NEW_HALF] : nextSnaps(previous);
  return filmScope.offense === null ? ways : withinDrive(ways, previous, next);
}

const NEW_HALF: NextSnap = { ...ANYTHING, kind: 'kickoff' };

/** With one side charted, two plays of one drive are neighbours: whatever ends a drive did not happen between them. */
function withinDrive(ways: readonly NextSnap[], previous: PlayFacts, next: PlayFacts): readonly NextSnap[] {
  if (previous.drive === null || previous.drive !== next.drive) return ways;
  return ways.filter((way) => way.kind === 'down' && way.offense === previous.offense);
}

interface Habits {
  readonly kickoffs: boolean;
  readonly tries: boolean;
}

/**
 * Skips what this chart leaves out: after tries come kickoffs, after kickoffs a first down for either side, or a try
 * where the kickoff was returned for a touchdown.
 */
function asCharted(way: NextSnap, habits: Habits): readonly NextSnap[] {
  const isKickoff = way.kind === 'kickoff' || (way.kind === 'try' && !habits.tries);
  if (!isKickoff) return [way];
  if (habits.kickoffs) return [{ ...way, kind: 'kickoff' }];
  const series: NextSnap = { ...ANYTHING, kind: 'down', down: 1, distance: 'series' };
  return habits.tries ? [series, { ...ANYTHING, kind: 'try' }] : [series];
}

/** Whether the scope leaves no room for an uncharted play between two charted ones. */
function mustBeNeighbours(
  ways: readonly NextSnap[],
  previous: PlayFacts,
  next: PlayFacts,
  filmScope: FilmScope,
): boolean {
  if (coversAllSnaps(filmScope)) return true;
  const { offense, downs, quarters } = filmScope;
  if (quarters !== null) {
    if (previous.quarter === null || next.quarter === null) return false;
    if (next.quarter - previous.quarter > 1) return false;
  }
  const side = offense === 'home' ? 1 : 0;
  return ways.every(
    (way) =>
      (offense === null || (way.kind === 'down' && way.offense === side)) &&
      (downs === null || (way.kind === 'down' && way.down !== null && downs.includes(way.down))),
  );
}

/** The way on that the chart comes nearest to; a wrong kind of play outweighs a wrong side, and that any number. */
function leastBroken(candidates: readonly (readonly ContinuityBreak[])[]): readonly ContinuityBreak[] {
  const weigh = (breaks: readonly ContinuityBreak[]): number =>
    breaks.reduce((sum, { field }) => sum + (field === 'playType' ? 100 : field === 'possession' ? 10 : 1), 0);
  return candidates.reduce((best, candidate) => (weigh(candidate) < weigh(best) ? candidate : best));
}

function breaksOf(way: NextSnap, previous: PlayFacts, next: PlayFacts): readonly ContinuityBreak[] {
  const breaks: ContinuityBreak[] = [];
  const flag = (field: ContinuityField, found: number | string, expected: number | string): void => {
    breaks.push({
      playNumber: next.playNumber,
      orderInGame: next.orderInGame,
      previousPlayNumber: previous.playNumber,
      field,
      found,
      expected,
      message: `${WORDS[field]} is ${found}, but ${expected} follows from play ${previous.playNumber}`,
    });
  };

  const kind = next.kind === 'kickoff' || next.kind === 'try' ? next.kind : 'down';
  if (kind !== way.kind) {
    flag('playType', next.playType, way.kind === 'down' ? 'a play from scrimmage' : `a ${way.kind}`);
    return breaks;
  }
  if (way.offense !== null && way.offense !== next.offense) {
    flag('possession', sideName(next.offense), sideName(way.offense));
  }
  if (way.down !== null && next.down !== null && way.down !== next.down) flag('down', next.down, way.down);
  if (way.distance !== null && next.distance !== null) {
    const { least, most, expected } = distanceRange(way.distance, way.yardsToGoal ?? next.yardsToGoal);
    if (next.distance < least || next.distance > most) flag('distance', next.distance, expected);
  }
  if (way.yardsToGoal !== null && next.yardsToGoal !== null) {
    const off = Math.abs(way.yardsToGoal - next.yardsToGoal);
    if (off > TOLERATED_YARDS) flag('yardsToGoal', next.yardsToGoal, way.yardsToGoal);
  }
  if (way.drive !== null && previous.drive !== null && next.drive !== null) {
    const [least, most] = DRIVE_STEPS[way.drive];
    const step = next.drive - previous.drive;
    if (step < least || step > most) flag('drive', next.drive, previous.drive + least);
  }
  return breaks;
}

const WORDS: Readonly<Record<ContinuityField, string>> = {
  playType: 'the play type',
  possession: 'the side with the ball',
  down: 'the down',
  distance: 'the distance',
  yardsToGoal: 'yards to goal',
  drive: 'the drive',
};

const DRIVE_STEPS: Readonly<Record<DriveStep, readonly [number, number]>> = {
  same: [0, 0],
  next: [1, 1],
  'same or next': [0, 1],
};

/** A new series has 10 to go and nothing else, unless the goal line is about as near. */
function distanceRange(
  distance: number | 'series',
  yardsToGoal: number | null,
): { least: number; most: number; expected: number } {
  if (distance !== 'series') {
    return { least: distance - TOLERATED_YARDS, most: distance + TOLERATED_YARDS, expected: distance };
  }
  if (yardsToGoal === null) return { least: 1, most: 10, expected: 10 };
  if (yardsToGoal > 10 + TOLERATED_YARDS) return { least: 10, most: 10, expected: 10 };
  const expected = Math.min(10, yardsToGoal);
  return { least: expected - TOLERATED_YARDS, most: Math.min(10, expected + TOLERATED_YARDS), expected };
}

function sideName(offense: number): 'home' | 'away' {
  return offense === 1 ? 'home' : 'away';
}
