import type { Interval } from '../../statistics/interval.js';
import { assertCount } from '../../statistics/guards.js';
import { halves, UNKNOWN_HALF } from '../../football/expected-points-halves.js';
import { playOrder } from '../../football/play-order.js';
import type { DimensionCodes } from '../dimension-codes.js';
import type { DimensionName, DimensionValue } from '../dimension-names.js';
import { readDimension } from '../dimensions.js';
import type { PlayReference } from '../evidence.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { othersPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import { differenceOf } from '../decisions/counted-share.js';
import { tallyCodes, valueCounts, type ValueCount } from '../decisions/value-counts.js';

/** One snap of a game's opening. */
export interface OpenerSnap {
  /** What was called, null where it is not known. */
  readonly value: DimensionValue | null;
  readonly reference: PlayReference;
}

export interface OpenerGame {
  /** Place of the chart in the batch's list. */
  readonly chartIndex: number;
  /** In the order in which they were played; fewer than asked for where the half had fewer. */
  readonly snaps: readonly OpenerSnap[];
}

export interface OpenerValue extends ValueCount {
  /** The same value on the player's snaps after the openers. */
  readonly later: { readonly count: number; readonly known: number };
  /** Share among the openers less that later, with Newcombe's interval; null where either is not known. */
  readonly difference: Interval | null;
}

export interface Openers {
  /** Of the game, or of its second half. */
  readonly of: 'game' | 'second half';
  readonly games: readonly OpenerGame[];
  /** For the first snap, the second and so on: its values over the games, most frequent first. */
  readonly byPosition: readonly (readonly ValueCount[])[];
  /** All openers together, most frequent first. */
  readonly values: readonly OpenerValue[];
}

/**
 * The first counting snaps of each game and of each second half: what they were, one after the other, and how their mix
 * differs from later snaps and from the field's openers. A chart in which a snap of unknown quarter comes before is left
 * out, since its opening cannot be told.
 *
 * Reads quarter. Charts must cover all snaps of the side.
 *
 * @param asked     - whole charts, unfiltered
 * @param dimension - what is read
 * @param snaps     - how many openers a game has, ≥ 1; 15 is the usual script
 * @returns the game's, then the second half's
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`, `vocabulary.unknown_code`
 */
export function openers(asked: AskedPlays, dimension: DimensionName, snaps: number): Openers[] {
  assertCount('snaps', snaps, { min: 1 });
  const { facts, field, player, vocabulary, confidence } = asked;
  const read = readDimension(dimension, facts, vocabulary);
  const others = field === null ? null : readDimension(dimension, field.facts, vocabulary);
  return ([1, 2] as const).map((half): Openers => {
    const own = openingPositions(facts, half, snaps);
    const opening = placesWhere(own, (position) => position >= 0);
    const later = placesWhere(own, (position, play) => position < 0 && facts.counts[play] === 1);
    const fieldPositions = field === null ? null : openingPositions(field.facts, half, snaps);
    const fieldPlays = (wanted: (position: number) => boolean): Parameters<typeof valueCounts>[1] =>
      field === null || others === null || fieldPositions === null
        ? null
        : {
            facts: field.facts,
            read: others,
            places: othersPlaces(field, player).filter((play) => wanted(fieldPositions[play] ?? -1)),
          };
    const laterCounts = tallyCodes({ read, places: later });
    const laterKnown = laterCounts.reduce((sum, count) => sum + count, 0);
    return {
      of: half === 1 ? 'game' : 'second half',
      games: gamesOf(facts, read, own, opening),
      byPosition: Array.from({ length: snaps }, (_, position) =>
        valueCounts(
          { facts, read, places: opening.filter((play) => own[play] === position) },
          fieldPlays((at) => at === position),
          confidence,
        ),
      ),
      values: valueCounts(
        { facts, read, places: opening },
        fieldPlays((at) => at >= 0),
        confidence,
      ).map((value) => {
        const code = read.values.findIndex(({ key }) => key === value.value.key);
        const rest = { count: laterCounts[code] ?? 0, known: laterKnown };
        return { ...value, later: rest, difference: differenceOf(value.share, rest, confidence) };
      }),
    };
  });
}

/** For each play its position among the openers of the half, from 0; -1 for every other. */
function openingPositions({ plays, counts }: TendencyPlays, wanted: number, snaps: number): Int32Array {
  const half = halves(plays);
  const positions = new Int32Array(plays.count).fill(-1);
  let chart = -1;
  let seen = 0;
  let unclear = false;
  for (const play of playOrder(plays)) {
    if (plays.chartIndex[play] !== chart) {
      chart = plays.chartIndex[play] ?? -1;
      seen = 0;
      unclear = false;
    }
    if (counts[play] !== 1) continue;
    if (half[play] === UNKNOWN_HALF) unclear = true;
    if (unclear || half[play] !== wanted || seen >= snaps) continue;
    positions[play] = seen;
    seen += 1;
  }
  return positions;
}

function placesWhere(positions: Int32Array, wanted: (position: number, play: number) => boolean): Int32Array {
  return Int32Array.from(positions.keys()).filter((play) => wanted(positions[play] ?? -1, play));
}

function gamesOf(
  { plays }: TendencyPlays,
  read: DimensionCodes,
  positions: Int32Array,
  opening: Int32Array,
): OpenerGame[] {
  const games = new Map<number, OpenerSnap[]>();
  for (const play of opening.toSorted((a, b) => (positions[a] ?? 0) - (positions[b] ?? 0))) {
    const chartIndex = plays.chartIndex[play] ?? -1;
    const snaps = games.get(chartIndex) ?? [];
    games.set(chartIndex, snaps);
    snaps.push({
      value: read.values[read.codes[play] ?? -1] ?? null,
      reference: { chartIndex, playNumber: plays.playNumber[play] ?? -1 },
    });
  }
  return [...games].sort(([a], [b]) => a - b).map(([chartIndex, snaps]) => ({ chartIndex, snaps }));
}
