import { UNKNOWN_CODE, UNKNOWN_NUMBER, type CodeColumn } from '../../charting/play-columns.js';
import type { NumberFieldName, PlayFieldName } from '../../charting/play-fields.js';
import type { SnapFacts } from '../forecast-snaps.js';
import type { FeatureColumn } from './feature-column.js';

const NUMBERS = [
  'quarter',
  'clockSeconds',
  'offenseTimeouts',
  'defenseTimeouts',
  'scoreDifference',
  'down',
  'distance',
  'yardsToGoal',
] as const satisfies readonly NumberFieldName[];
type SituationNumbers = Record<(typeof NUMBERS)[number], number>;

/** What is worked out from the numbers of the situation; NaN where one of them is not known. */
type Derive = (numbers: SituationNumbers, quarterSeconds: number) => number;

const FULL_GAME_SECONDS = 3600;

/** Seconds until the half ends; an overtime period is a half of its own. */
function halfSeconds({ quarter, clockSeconds }: SituationNumbers, quarterSeconds: number): number {
  return clockSeconds + (quarter === 1 || quarter === 3 ? quarterSeconds : 0);
}

/** Seconds until the game ends, in games of four 15-minute quarters, so that shorter quarters read the same. */
function gameSeconds(numbers: SituationNumbers, quarterSeconds: number): number {
  const whole = numbers.clockSeconds + Math.max(0, 4 - numbers.quarter) * quarterSeconds;
  return (whole / (4 * quarterSeconds)) * FULL_GAME_SECONDS;
}

const DERIVED: readonly (readonly [name: string, derive: Derive])[] = [
  ['secondsLeftInHalf', halfSeconds],
  ['secondsLeftInGame', gameSeconds],
  ['goalToGo', ({ distance, yardsToGoal }) => (distance >= yardsToGoal ? 1 : 0)],
  ['distanceBeyondGoal', ({ distance, yardsToGoal }) => yardsToGoal - distance],
  // A lead weighs the more the less time is left: points against the root of the time, as random walks go.
  [
    'leadForTimeLeft',
    (numbers, quarter) => numbers.scoreDifference / Math.sqrt(gameSeconds(numbers, quarter) / 60 + 1),
  ],
  ['scoresBehind', ({ scoreDifference }) => Math.sign(scoreDifference) * Math.ceil(Math.abs(scoreDifference) / 8)],
  ['leadWhenLate', (numbers, quarter) => (gameSeconds(numbers, quarter) < 900 ? numbers.scoreDifference : 0)],
  ['distanceByDown', ({ down, distance }) => distance / Math.max(1, 5 - down)],
  ['downAndDistance', ({ down, distance }) => down * 20 + Math.min(distance, 19)],
];

const CHOICES = ['clockRunning', 'hash'] as const;

/**
 * What the situation says: the charted numbers, and what follows from them.
 *
 * @param visible - fields that may be looked at
 */
export function situationFeatures(snaps: SnapFacts, visible: ReadonlySet<PlayFieldName>): FeatureColumn[] {
  const { plays, quarterSeconds } = snaps;
  const numbers = NUMBERS.map((name) =>
    visible.has(name) ? knownNumbers(plays.number(name).values) : unknown(plays.count),
  );
  const columns: FeatureColumn[] = NUMBERS.map((name, place) => ({
    name,
    kind: 'number',
    values: numbers[place] ?? unknown(plays.count),
  }));
  const derived = DERIVED.map(() => unknown(plays.count));
  const row: SituationNumbers = {
    quarter: 0,
    clockSeconds: 0,
    offenseTimeouts: 0,
    defenseTimeouts: 0,
    scoreDifference: 0,
    down: 0,
    distance: 0,
    yardsToGoal: 0,
  };
  for (let play = 0; play < plays.count; play += 1) {
    NUMBERS.forEach((name, place) => {
      row[name] = numbers[place]?.[play] ?? Number.NaN;
    });
    DERIVED.forEach(([name, derive], place) => {
      const values = derived[place];
      // A comparison with NaN is false, which would be an answer: goal to go needs both of its numbers.
      const isOpen = name === 'goalToGo' && Number.isNaN(row.distance + row.yardsToGoal);
      if (values !== undefined && !isOpen) values[play] = derive(row, quarterSeconds);
    });
  }
  DERIVED.forEach(([name], place) => columns.push({ name, kind: 'number', values: derived[place] ?? unknown(0) }));
  for (const name of CHOICES) {
    if (visible.has(name)) columns.push({ name, kind: 'category', values: knownMeanings(plays.code(name)) });
  }
  return columns;
}

/** Numbers with NaN where the chart does not say. */
export function knownNumbers(values: Int16Array): Float64Array {
  return filled(values, (value) => (value === UNKNOWN_NUMBER ? Number.NaN : value));
}

/** Codes with NaN where the chart does not say. */
export function knownCodes(codes: ArrayLike<number>): Float64Array {
  return filled(codes, (code) => (code === UNKNOWN_CODE ? Number.NaN : code));
}

/** What each play's code stands for, so that batches with codes of their own can be set beside each other. */
export function knownMeanings({ codes, meanings }: Pick<CodeColumn, 'codes' | 'meanings'>): Float64Array {
  return filled(codes, (code) => meanings[code] ?? Number.NaN);
}

/** `Float64Array.from` walks an iterator, which takes many times as long. */
function filled(of: ArrayLike<number>, value: (code: number) => number): Float64Array {
  const values = new Float64Array(of.length);
  for (let play = 0; play < of.length; play += 1) values[play] = value(of[play] ?? UNKNOWN_CODE);
  return values;
}

function unknown(count: number): Float64Array {
  return new Float64Array(count).fill(Number.NaN);
}
