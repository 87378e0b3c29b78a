import type { DimensionCodes } from '../dimension-codes.js';
import type { DimensionValue } from '../dimension-names.js';
import { Evidence } from '../evidence.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { countedShare, type CountedShare } from './counted-share.js';

/** One value of a dimension among some plays. */
export interface ValueCount {
  readonly value: DimensionValue;
  readonly share: CountedShare;
}

/** Some plays of a batch, and what a dimension says of each. */
export interface ReadPlays {
  readonly facts: TendencyPlays;
  readonly read: DimensionCodes;
  /** Ascending places in the batch. */
  readonly places: Int32Array;
}

/**
 * The shares of a dimension's values among some plays, most frequent first. Values that only the field uses are left
 * out: there is nothing to show of them.
 *
 * @param own        - the player's plays
 * @param field      - the other players', in a batch of their own; null without one
 * @param confidence - of each interval, in (0, 1)
 * @throws DomainError `stats.invalid_probability`
 */
export function valueCounts(own: ReadPlays, field: ReadPlays | null, confidence: number): ValueCount[] {
  const counts = tallyCodes(own);
  const known = sum(counts);
  const fieldCounts = field === null ? null : tallyByKey(field);
  const fieldKnown = fieldCounts === null ? 0 : sum(fieldCounts.values());
  return own.read.values
    .flatMap((value, code) => {
      const count = counts[code] ?? 0;
      if (count === 0) return [];
      const evidence = new Evidence(own.facts.plays, own.places, (play) => own.read.codes[play] === code);
      const others = fieldCounts === null ? null : { count: fieldCounts.get(value.key) ?? 0, known: fieldKnown };
      return [{ value, share: countedShare({ count, known }, others, confidence, evidence) }];
    })
    .sort((first, second) => second.share.count - first.share.count);
}

/** Plays of each code, by place in the dimension's values. */
export function tallyCodes({ read, places }: Pick<ReadPlays, 'read' | 'places'>): Int32Array {
  const counts = new Int32Array(read.values.length);
  for (const play of places) {
    const code = read.codes[play] ?? -1;
    if (code >= 0) counts[code] = (counts[code] ?? 0) + 1;
  }
  return counts;
}

function tallyByKey(field: ReadPlays): ReadonlyMap<string, number> {
  const counts = tallyCodes(field);
  return new Map(field.read.values.map(({ key }, code) => [key, counts[code] ?? 0]));
}

function sum(counts: Iterable<number>): number {
  let total = 0;
  for (const count of counts) total += count;
  return total;
}
