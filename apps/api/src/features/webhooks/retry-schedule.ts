const [SECOND, MINUTE, HOUR] = [1_000, 60_000, 3_600_000];

/** From each attempt to the next. The example schedule of Standard Webhooks 1.0.0, "Deliverability and reliability". */
const DELAYS_MS: readonly number[] = [
  ...[5 * SECOND, 5 * MINUTE, 30 * MINUTE],
  ...[2, 5, 10, 14, 20, 24].map((hours) => hours * HOUR),
];
/** Up to so much later, so that messages that failed together are not sent together again. Common practice, no source. */
const JITTER = 0.2;
const LONGEST_ASKED_MS = 24 * HOUR;

/**
 * How long to wait before the next attempt, in milliseconds.
 *
 * @param attempts - made so far; at least 1
 * @param askedMs - what the receiver asked for (Retry-After); it prolongs a delay, by no more than to a day
 * @param random - from 0, inclusive, to 1
 * @returns null when the schedule is used up
 */
export function retryDelay(attempts: number, askedMs: number, random: number): number | null {
  const delay = DELAYS_MS[attempts - 1];
  if (delay === undefined) return null;
  return Math.round(Math.max(delay * (1 + JITTER * random), Math.min(askedMs, LONGEST_ASKED_MS)));
}
