import { fisherExactTest } from '../../statistics/fisher-exact-test.js';
import type { Interval } from '../../statistics/interval.js';
import type { TwoByTwo } from '../../statistics/two-by-two.js';
import { listMask, termMask, type PlayMask } from '../../football/play-masks.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import type { DimensionName } from '../dimension-names.js';
import { readDimension } from '../dimensions.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { allPlaces, othersPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import { differenceOf, type CountedShare } from '../decisions/counted-share.js';
import { stratifiedPValue, tablesByStratum } from '../decisions/stratified-p-value.js';
import { tallyCodes, valueCounts, type ReadPlays, type ValueCount } from '../decisions/value-counts.js';
import { situationInGame } from './call-pairs.js';
import { previousSnaps, type JoinedWithin } from './successive-snaps.js';

/** What can happen on a snap that a player may answer on the next one. */
export const REACTION_EVENTS = ['sack', 'turnover', 'explosive play'] as const;
export type ReactionEvent = (typeof REACTION_EVENTS)[number];

/** How often one value follows an event. */
export interface ReactionValue extends ValueCount {
  /** The same value on the player's other snaps, whatever the situation. */
  readonly otherwise: { readonly count: number; readonly known: number };
  /** Share after the event less that otherwise, with Newcombe's interval; null where either is not known. */
  readonly difference: Interval | null;
  /**
   * Against the player's other snaps, within situation and game; null where nothing can be compared there. After a sack
   * that is often so: hardly anything else leads to such distances, and the field's answer is the better measure.
   */
  readonly pValue: number | null;
  /** Against what the field does after the same event, two-sided mid-P; null without a field that knows it. */
  readonly fieldPValue: number | null;
}

export interface Reaction {
  readonly event: ReactionEvent;
  /** Counting snaps that came next. */
  readonly snaps: number;
  /** Those on which the dimension is known. */
  readonly known: number;
  /** Most frequent first. */
  readonly values: readonly ReactionValue[];
}

/**
 * What comes on the snap after a sack, a turnover or an explosive play, in the same batch: for an offense its own next
 * call, for a defense its answer after the offense it faces was hit or hit it. After a sack and an explosive play the
 * next snap of the drive; after a turnover the first one of the same side's next drive in that half. The p-value
 * compares inside situation and game: after a sack it is second and long, and that alone changes calls. The field's snaps
 * after the same event are shown beside, and tested apart.
 *
 * @param asked     - whole charts, unfiltered
 * @param dimension - what is read on the next snap
 * @returns one entry an event, in the order of REACTION_EVENTS; with no plays its values are empty
 * @throws DomainError `stats.invalid_probability`, `vocabulary.unknown_code`
 * @see Mantel & Haenszel (1959), J. Natl. Cancer Inst. 22, 719–748; Newcombe (1998), Stat. Med. 17, 873–890; Fisher
 *   (1935), J. R. Stat. Soc. 98, 39–82
 */
export function reactions(asked: AskedPlays, dimension: DimensionName): Reaction[] {
  const { facts, field, player, vocabulary, confidence } = asked;
  const read = readDimension(dimension, facts, vocabulary);
  const others = field === null ? null : { ...field, read: readDimension(dimension, field.facts, vocabulary) };
  return REACTION_EVENTS.map((event) => {
    const follows = snapsAfter(facts, vocabulary, event);
    const snaps = allPlaces(facts).filter((play) => follows[play] === 1);
    const own: ReadPlays = { facts, read, places: snaps };
    const fieldPlays = others === null ? null : { ...others, places: placesAfter(others, player, vocabulary, event) };
    const rest = allPlaces(facts).filter((play) => facts.counts[play] === 1 && follows[play] !== 1);
    const values = valueCounts(own, fieldPlays, confidence);
    const known = values[0]?.share.known ?? 0;
    return {
      event,
      snaps: snaps.length,
      known,
      values: values.map((value) => reactionValue(value, own, rest, follows, confidence)),
    };
  });
}

function reactionValue(
  value: ValueCount,
  { facts, read }: ReadPlays,
  rest: Int32Array,
  follows: PlayMask,
  confidence: number,
): ReactionValue {
  const code = read.values.findIndex(({ key }) => key === value.value.key);
  const counts = tallyCodes({ read, places: rest });
  const otherwise = { count: counts[code] ?? 0, known: counts.reduce((sum, count) => sum + count, 0) };
  const tables = tablesByStratum(
    allPlaces(facts).filter((play) => facts.counts[play] === 1),
    (play) => situationInGame(facts, play),
    (play) => follows[play] ?? 0,
    (play) => {
      const own = read.codes[play] ?? -1;
      return own < 0 ? -1 : own === code ? 1 : 0;
    },
  );
  return {
    ...value,
    otherwise,
    difference: differenceOf(value.share, otherwise, confidence),
    pValue: stratifiedPValue(tables),
    fieldPValue: againstField(value.share),
  };
}

function againstField({ count, known, field }: CountedShare): number | null {
  if (field === null) return null;
  const table: TwoByTwo = [
    [count, known - count],
    [field.count, field.known - field.count],
  ];
  return fisherExactTest(table).midP.twoSided;
}

function placesAfter(
  field: { readonly facts: TendencyPlays; readonly playerOf: Int32Array },
  player: number,
  vocabulary: Vocabulary,
  event: ReactionEvent,
): Int32Array {
  const follows = snapsAfter(field.facts, vocabulary, event);
  return othersPlaces(field, player).filter((play) => follows[play] === 1);
}

function snapsAfter(facts: TendencyPlays, vocabulary: Vocabulary, event: ReactionEvent): PlayMask {
  const happened = eventMask(facts, vocabulary, event);
  const within: JoinedWithin = event === 'turnover' ? 'half' : 'drive';
  const previous = previousSnaps(facts, within);
  const drives = facts.plays.number('drive').values;
  const mask = new Uint8Array(facts.plays.count);
  for (let play = 0; play < mask.length; play += 1) {
    const before = previous[play] ?? -1;
    if (before < 0 || happened[before] !== 1) continue;
    // A fumble that the next play of the same drive contradicts was charted wrongly.
    if (event !== 'turnover' || drives[before] !== drives[play]) mask[play] = 1;
  }
  return mask;
}

function eventMask(facts: TendencyPlays, vocabulary: Vocabulary, event: ReactionEvent): PlayMask {
  const { plays, explosive } = facts;
  if (event === 'sack') return termMask(plays, 'snapResult', vocabulary, ['snapResult.sacked']);
  if (event === 'explosive play') return Uint8Array.from(explosive, (code) => (code === 1 ? 1 : 0));
  const intercepted = termMask(plays, 'snapResult', vocabulary, ['snapResult.intercepted']);
  const lost = listMask(plays, 'ledTo', vocabulary, ['ledTo.fumble-lost', 'ledTo.turnover-on-downs']);
  return intercepted.map((value, play) => value | (lost[play] ?? 0));
}
