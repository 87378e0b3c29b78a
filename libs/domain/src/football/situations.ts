import { UNKNOWN_CODE, UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import { DomainError } from '../domain-error.js';
import { elementAt } from '../statistics/element-at.js';
import { playOrder } from './play-order.js';

/** A band of yards to the goal, from the end of the band before it up to `upTo`. */
export interface FieldZone {
  readonly name: string;
  /** Yards to the goal, inclusive, 1 to 99. */
  readonly upTo: number;
}

/** How a clan divides a game. Versioned, and frozen into every report that was made with it. */
export interface SituationSettings {
  readonly version: number;
  /** The usual distance on first down, in yards. */
  readonly firstDownDistance: number;
  /** Last distance of each band but the open one at the end, in yards, ascending. */
  readonly secondDownBands: readonly number[];
  readonly thirdDownBands: readonly number[];
  readonly fourthDownBands: readonly number[];
  /** From the goal line outwards, ascending; the last one ends at 99. */
  readonly zones: readonly FieldZone[];
}

/** Common practice, no source. */
export const DEFAULT_SITUATIONS: SituationSettings = {
  version: 1,
  firstDownDistance: 10,
  secondDownBands: [3, 6, 10],
  thirdDownBands: [2, 6, 10],
  fourthDownBands: [1, 3, 7],
  zones: [
    { name: 'goal line', upTo: 3 },
    { name: 'low red', upTo: 10 },
    { name: 'high red', upTo: 20 },
    { name: 'fringe', upTo: 39 },
    { name: 'midfield', upTo: 59 },
    { name: 'own', upTo: 89 },
    { name: 'backed up', upTo: 99 },
  ],
};

/** A classification of plays: a code for each, and what the codes stand for. */
export interface Classification {
  /** One a play: place in `names`, or -1 where unknown. */
  readonly codes: Int8Array;
  /** What a person reads. */
  readonly names: readonly string[];
}

const FIRST_SNAP = 'first snap of a drive';
const GOAL_TO_GO = 'goal to go';
const ORDINALS = ['1st', '2nd', '3rd', '4th'] as const;

/**
 * The situation of each play by down and distance. Goal to go (the line to gain is the goal line) stands apart and comes
 * first, then the first snap of a drive, then the bands of the down. Where the spot is unknown goal to go is not
 * claimed. Common practice, no source.
 *
 * The first snap of a drive is a first down whose drive number differs from that of the play from scrimmage before it in
 * the same chart's order, or that has none before it. It is not claimed where either drive is unknown. Classify a whole
 * chart, or one side of it, before filtering it further: what was filtered out would make first snaps of later ones.
 *
 * Reads down, distance, yardsToGoal and drive.
 *
 * @returns -1 where down or distance is unknown, as on kickoffs and tries; the first snap of a drive needs no distance
 * @throws DomainError `football.invalid_settings`
 */
export function situationCodes(plays: PlayColumns, settings: SituationSettings): Classification {
  const { bands, names, firstCodeOfDown } = divisionOf(settings);
  const usual = settings.firstDownDistance;
  const downs = plays.number('down').values;
  const distances = plays.number('distance').values;
  const yardsToGoal = plays.number('yardsToGoal').values;
  const opensDrive = firstSnaps(plays);
  const codes = new Int8Array(plays.count).fill(UNKNOWN_CODE);
  for (let play = 0; play < plays.count; play += 1) {
    const down = downs[play] ?? UNKNOWN_NUMBER;
    const distance = distances[play] ?? UNKNOWN_NUMBER;
    const goal = yardsToGoal[play] ?? UNKNOWN_NUMBER;
    if (down === UNKNOWN_NUMBER) continue;
    if (distance !== UNKNOWN_NUMBER && goal !== UNKNOWN_NUMBER && distance >= goal) codes[play] = 1;
    else if (opensDrive[play] === 1) codes[play] = 0;
    else if (distance === UNKNOWN_NUMBER) continue;
    else if (down === 1) codes[play] = distance === usual ? 2 : distance < usual ? 3 : 4;
    else codes[play] = (firstCodeOfDown[down - 1] ?? 0) + bandOf(distance, bands[down - 1] ?? []);
  }
  return { codes, names };
}

interface Division {
  readonly bands: readonly (readonly number[])[];
  readonly names: readonly string[];
  readonly firstCodeOfDown: readonly number[];
}

/** Settings are few and are asked for play by play. */
const DIVISIONS = new WeakMap<SituationSettings, Division>();

/** @throws DomainError `football.invalid_settings` */
function divisionOf(settings: SituationSettings): Division {
  const known = DIVISIONS.get(settings);
  if (known !== undefined) return known;
  assertSituations(settings);
  const bands = [[], settings.secondDownBands, settings.thirdDownBands, settings.fourthDownBands];
  const usual = settings.firstDownDistance;
  const names = [
    FIRST_SNAP,
    GOAL_TO_GO,
    `1st and ${usual}`,
    `1st and under ${usual}`,
    `1st and over ${usual}`,
    ...bands
      .slice(1)
      .flatMap((ends, place) => bandNames(ends).map((band) => `${ORDINALS[place + 1] ?? ''} and ${band}`)),
  ];
  const firstCodeOfDown = [0, 1, 2, 3].map((down) =>
    down === 0 ? 2 : 5 + bands.slice(1, down).reduce((sum, ends) => sum + ends.length + 1, 0),
  );
  const division = { bands, names, firstCodeOfDown };
  DIVISIONS.set(settings, division);
  return division;
}

/**
 * The field zone of each play by yards to the goal. Common practice, no source. Reads yardsToGoal.
 *
 * @returns names from the goal line outwards; -1 where the spot is unknown
 * @throws DomainError `football.invalid_settings`
 */
export function zoneCodes(plays: PlayColumns, settings: SituationSettings): Classification {
  assertSituations(settings);
  const ends = settings.zones.map((zone) => zone.upTo);
  const yardsToGoal = plays.number('yardsToGoal').values;
  const codes = new Int8Array(plays.count).fill(UNKNOWN_CODE);
  for (let play = 0; play < plays.count; play += 1) {
    const goal = yardsToGoal[play] ?? UNKNOWN_NUMBER;
    if (goal !== UNKNOWN_NUMBER) codes[play] = bandOf(goal, ends);
  }
  return { codes, names: settings.zones.map((zone) => zone.name) };
}

function firstSnaps(plays: PlayColumns): Uint8Array {
  const downs = plays.number('down').values;
  const drives = plays.number('drive').values;
  const first = new Uint8Array(plays.count);
  let chart = -1;
  let driveBefore = -1;
  for (const play of playOrder(plays)) {
    // Kickoffs and tries have no down; whichever drive a chart counts them to, they open none.
    if (downs[play] === UNKNOWN_NUMBER) continue;
    const drive = drives[play] ?? UNKNOWN_NUMBER;
    const isNewChart = plays.chartIndex[play] !== chart;
    const changed =
      drive !== UNKNOWN_NUMBER && (isNewChart || (driveBefore !== UNKNOWN_NUMBER && drive !== driveBefore));
    if (changed && downs[play] === 1) first[play] = 1;
    chart = plays.chartIndex[play] ?? -1;
    driveBefore = drive;
  }
  return first;
}

/** Place of the first band that reaches a value; one past the last for the open band at the end. */
function bandOf(value: number, ends: readonly number[]): number {
  let band = 0;
  while (band < ends.length && value > (ends[band] ?? 0)) band += 1;
  return band;
}

/** The name of the band that a distance of at least 1 lies in. */
export function bandName(distance: number, ends: readonly number[]): string {
  return elementAt(bandNames(ends), bandOf(distance, ends));
}

/** [1, 3, 7] -> 1, 2-3, 4-7, 8 or more. */
export function bandNames(ends: readonly number[]): string[] {
  const starts = [1, ...ends.map((end) => end + 1)];
  return starts.map((start, band) => {
    const end = ends[band];
    if (end === undefined) return `${start} or more`;
    return start === end ? `${start}` : `${start}-${end}`;
  });
}

function assertSituations(settings: SituationSettings): void {
  assertAscending('secondDownBands', settings.secondDownBands);
  assertAscending('thirdDownBands', settings.thirdDownBands);
  assertAscending('fourthDownBands', settings.fourthDownBands);
  const ends = settings.zones.map((zone) => zone.upTo);
  assertAscending('zones', ends);
  if (ends.at(-1) !== 99) refuse('zones', ends, 'must end at 99');
  assertAscending('firstDownDistance', [settings.firstDownDistance]);
}

const MOST_BANDS = 20;

function assertAscending(name: string, ends: readonly number[]): void {
  const ascending = ends.every(
    (end, place) => Number.isInteger(end) && end >= 1 && end <= 99 && end > (ends[place - 1] ?? 0),
  );
  if (!ascending || ends.length > MOST_BANDS)
    refuse(name, ends, 'must be ascending whole yards from 1 to 99, at most 20');
}

function refuse(name: string, value: unknown, need: string): never {
  throw new DomainError('football.invalid_settings', `${name} ${need}`, { name, value });
}
