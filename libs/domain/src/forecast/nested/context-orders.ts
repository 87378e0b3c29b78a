import { UNKNOWN_NUMBER } from '../../charting/play-columns.js';
import type { CodeFieldName } from '../../charting/play-fields.js';
import { PLAY_FIELDS, type PlayFieldName } from '../../charting/play-fields.js';
import { DEFAULT_SITUATIONS } from '../../football/situations.js';
import type { SnapFacts } from '../forecast-snaps.js';
import { joinKeys } from './context-keys.js';
import { information } from './information.js';
import type { NestedOrder } from './nested-shares.js';

const FIRST_SEEN = PLAY_FIELDS.findIndex(({ name }) => name === 'tempo');

/** What contexts are made of: one key a play, -1 where not known. */
export interface ContextKeys {
  /** Down and distance in the usual bands; goal to go is not told apart. */
  readonly downAndDistance: Int32Array;
  readonly zone: Int32Array;
  /** Score by the time that is left. */
  readonly clock: Int32Array;
  readonly player: Int32Array;
  readonly other: Int32Array;
}

export function contextKeys(snaps: SnapFacts, side: 'offense' | 'defense'): ContextKeys {
  return {
    downAndDistance: downAndDistanceKeys(snaps),
    zone: zoneKeys(snaps),
    clock: clockKeys(snaps),
    player: snaps[side],
    other: snaps[side === 'offense' ? 'defense' : 'offense'],
  };
}

const BANDS: readonly (readonly number[])[] = [
  [DEFAULT_SITUATIONS.firstDownDistance - 1, DEFAULT_SITUATIONS.firstDownDistance],
  DEFAULT_SITUATIONS.secondDownBands,
  DEFAULT_SITUATIONS.thirdDownBands,
  DEFAULT_SITUATIONS.fourthDownBands,
];

/** See `ContextKeys.downAndDistance`. */
export function downAndDistanceKeys({ plays }: SnapFacts): Int32Array {
  const downs = plays.number('down').values;
  const distances = plays.number('distance').values;
  const keys = new Int32Array(plays.count).fill(-1);
  for (let play = 0; play < plays.count; play += 1) {
    const [down, distance] = [downs[play] ?? UNKNOWN_NUMBER, distances[play] ?? UNKNOWN_NUMBER];
    if (down === UNKNOWN_NUMBER || distance === UNKNOWN_NUMBER) continue;
    const band = (BANDS[down - 1] ?? []).filter((end) => distance > end).length;
    keys[play] = (down - 1) * 5 + band;
  }
  return keys;
}

function zoneKeys({ plays }: SnapFacts): Int32Array {
  return Int32Array.from(plays.number('yardsToGoal').values, (yards) =>
    yards === UNKNOWN_NUMBER ? -1 : DEFAULT_SITUATIONS.zones.filter(({ upTo }) => yards > upTo).length,
  );
}

const LEADS = [-17, -9, -4, -1, 0, 3, 8, 16];
const LATE_SECONDS = [120, 300];

/** Lead in bands, in the first three quarters, the fourth, and the last five and two minutes of each half. */
function clockKeys({ plays, quarterSeconds }: SnapFacts): Int32Array {
  const quarters = plays.number('quarter').values;
  const clocks = plays.number('clockSeconds').values;
  const leads = plays.number('scoreDifference').values;
  return Int32Array.from({ length: plays.count }, (_, play) => {
    const [quarter, clock, lead] = [quarters[play], clocks[play], leads[play]].map((value) => value ?? UNKNOWN_NUMBER);
    if (quarter === UNKNOWN_NUMBER || clock === UNKNOWN_NUMBER || lead === UNKNOWN_NUMBER) return -1;
    const late = LATE_SECONDS.filter((seconds) => (clock ?? 0) < (seconds * quarterSeconds) / 900).length;
    const time = quarter === 2 ? (late === 2 ? 1 : 0) : (quarter ?? 0) >= 4 ? 2 + late : 0;
    return time * 10 + LEADS.filter((end) => (lead ?? 0) > end).length;
  });
}

/** Cues that may stand in a nested order, most telling ones first. */
const MOST_CUES = 4;

/**
 * The nested orders that are tried: by situation, by player, and by what shows. Which cues count is told by the
 * training plays: those that say most of the outcome.
 *
 * @param rows    - training plays
 * @param visible - fields of the play that may be looked at
 */
export function contextOrders(
  snaps: SnapFacts,
  keys: ContextKeys,
  visible: ReadonlySet<PlayFieldName>,
  outcome: Int32Array,
  classes: number,
  rows: Int32Array,
): readonly NestedOrder[] {
  const { downAndDistance, zone, clock, player } = keys;
  const orders: NestedOrder[] = [
    nested('situation', [downAndDistance, clock, zone, player]),
    nested('player', [downAndDistance, player, clock]),
    nested('player first', [player, downAndDistance, zone]),
  ];
  const cues = lookFields(visible)
    .map((name) => ({ name, keys: Int32Array.from(snaps.plays.code(name).codes) }))
    .map((cue) => ({ ...cue, tells: information(cue.keys, outcome, classes, rows) }))
    .filter(({ tells }) => tells > 0)
    .sort((a, b) => b.tells - a.tells)
    .slice(0, MOST_CUES);
  const [first, second, third] = cues;
  if (first !== undefined) {
    orders.push(nested(`${first.name} by situation`, [first.keys, downAndDistance, player]));
    orders.push(nested(`${first.name} by player`, [downAndDistance, first.keys, player]));
  }
  if (first !== undefined && second !== undefined) {
    orders.push(nested('two cues', [downAndDistance, first.keys, second.keys, player]));
    orders.push(nested('all cues', [first.keys, second.keys, ...(third === undefined ? [] : [third.keys]), player]));
  }
  return orders;
}

function lookFields(visible: ReadonlySet<PlayFieldName>): CodeFieldName[] {
  return PLAY_FIELDS.slice(FIRST_SEEN).flatMap((field) =>
    (field.type === 'term' || field.type === 'choice') && visible.has(field.name) ? [field.name] : [],
  );
}

/** Each level adds one key to the level around it. */
function nested(name: string, parts: readonly Int32Array[]): NestedOrder {
  const levels: Int32Array[] = [];
  for (const part of parts) {
    const around = levels.at(-1);
    levels.push(around === undefined ? part : joinKeys(around, part));
  }
  return { name, levels };
}
