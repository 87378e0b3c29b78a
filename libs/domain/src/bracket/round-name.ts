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

export interface RoundOfStage {
  /** As `Stage` has them; "group" without a number for all of them at once. */
  readonly stage: string;
  readonly round: number;
}

/**
 * What people call a round of any stage.
 *
 * @param rounds - all rounds of the event: how many the main stage has, and whether there is a losers' side
 */
export function stageRoundName({ stage, round }: RoundOfStage, rounds: readonly RoundOfStage[]): string {
  switch (stage) {
    case 'main': {
      const last = Math.max(...rounds.filter((one) => one.stage === 'main').map((one) => one.round));
      const name = roundName(round, last);
      return rounds.some((one) => one.stage === 'final') ? `winners' ${name}` : name;
    }
    case 'losers':
      return `losers' round ${round}`;
    case 'final':
      return round === 1 ? 'grand final' : 'second grand final';
    case 'third place':
      return 'third place';
    case 'swiss':
      return `Swiss round ${round}`;
    default:
      return `${stage}, round ${round}`;
  }
}
