import type { Interval } from '../../statistics/interval.js';
import type { CountedShare } from '../decisions/counted-share.js';
import type { FieldShare } from '../results-shape.js';

/** Below this many plays a share is told in counts only. */
export const FEWEST_FOR_PERCENT = 10;

/** A share in [0, 1] as whole percent: `81 %`. */
export function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}

/** Two bounds as whole percent: `56-89 %`. */
export function percentRange({ lower, upper }: Interval): string {
  return `${Math.round(lower * 100)}-${percent(upper)}`;
}

/** `1 game`, `3 games`; `2 matches` where the plural is told. */
export function counted(count: number, noun: string, plural = `${noun}s`): string {
  return `${count} ${count === 1 ? noun : plural}`;
}

/** `+0.16`, `-0.04`, `0.00`: what rounds to nothing has no sign. */
export function signed(value: number, digits = 2): string {
  const printed = value.toFixed(digits);
  if (Number(printed) === 0) return (0).toFixed(digits);
  return value > 0 ? `+${printed}` : printed;
}

/** Where something is on none of them: `the one snap`, `any of 3 snaps`. */
export function anyOf(count: number, noun: string): string {
  return count === 1 ? `the one ${noun}` : `any of ${count} ${noun}s`;
}

/** `1st`, `2nd`, `3rd`, `4th`, `11th`. */
export function ordinal(place: number): string {
  const teens = place % 100 >= 11 && place % 100 <= 13;
  const ending = teens ? 'th' : (['th', 'st', 'nd', 'rd'][place % 10] ?? 'th');
  return `${place}${ending}`;
}

/** A share as words need it. */
export interface WordedShare {
  readonly count: number;
  readonly known: number;
  readonly interval: Interval | null;
  readonly field: FieldShare | null;
}

export function wordedShare({ count, known, raw, field }: CountedShare): WordedShare {
  return { count, known, interval: raw?.interval ?? null, field };
}

/** What was counted, then its counts: `run 9 of 12`; `cover 3, 9 of 12`, since two numbers in a row read as one. */
export function withCounts(what: string, counts: string): string {
  return `${what}${/\d$/.test(what) ? ',' : ''} ${counts}`;
}

/**
 * A share, never without its counts: `3 of 4` below ten plays, from ten on `9 of 12, 56-89 %, field 81 %`. A field that
 * is itself thin is told in counts.
 */
export function shareWords({ count, known, interval, field }: WordedShare): string {
  const counts = `${count} of ${known}`;
  if (known < FEWEST_FOR_PERCENT || interval === null) return counts;
  const words = [counts, percentRange(interval)];
  if (field !== null) words.push(`field ${fieldWords(field)}`);
  return words.join(', ');
}

function fieldWords({ share, count, known }: FieldShare): string {
  return known < FEWEST_FOR_PERCENT ? `${count} of ${known}` : percent(share);
}

/** On how many plays something could be seen, where that is not all of them. */
export function knownNotes(known: number, of: number): string[] {
  return known < of ? [`known on ${known} of ${of}`] : [];
}

/** `succeeded forced 1 of 7, not forced 8 of 13`, without what was never tried; nothing where neither was. */
export function successNotes(
  parts: readonly (readonly [when: string, tried: { readonly successes: number; readonly trials: number }])[],
): string[] {
  const words = parts.flatMap(([when, { successes, trials }]) =>
    trials === 0 ? [] : [`${when} ${successes} of ${trials}`],
  );
  return words.length === 0 ? [] : [`succeeded ${words.join(', ')}`];
}

/** A p-value as people read one, to its first figure and two places at least: `p 0.14`, `p 0.003`, `p below 0.001`. */
export function pValueWords(pValue: number): string {
  if (pValue < 0.001) return 'p below 0.001';
  return `p ${Number(pValue < 0.1 ? pValue.toPrecision(1) : pValue.toFixed(2))}`;
}

/** Below this a figure that stands alone is said to be more than chance. Common practice, no source. */
export const UNLIKELY = 0.05;

/** Whether a test found what it looked for: `more often than chance (p 0.03)`, `no more than chance (p 0.4)`. */
export function chanceWords(pValue: number, found: string): string {
  return `${pValue < UNLIKELY ? found : 'no more than chance'} (${pValueWords(pValue)})`;
}
