import { assertCount } from '../statistics/guards.js';

const LAST_ROUNDS = ['final', 'semifinal', 'quarter-final'] as const;

/**
 * What people call a round of a single-elimination bracket.
 *
 * @param round  - 1 for the first round; at most `rounds`
 * @param rounds - rounds of the whole bracket, at least 1
 * @returns "final", "semifinal", "quarter-final", else "round of 16"
 */
export function roundName(round: number, rounds: number): string {
  assertCount('rounds', rounds, { min: 1, max: 30 });
  assertCount('round', round, { min: 1, max: rounds });
  return LAST_ROUNDS[rounds - round] ?? `round of ${2 ** (rounds - round + 1)}`;
}
