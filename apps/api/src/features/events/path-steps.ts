import { stageRoundName, type RoundOfStage } from '#domain/bracket/round-name.js';
import type { PathStep } from '../../rendering/report-path.js';
import type { PathRow } from './events.repository.js';

/** Rows of the bracket as steps of a way. */
export function pathSteps(rows: readonly PathRow[], rounds: readonly RoundOfStage[]): PathStep[] {
  return rows.map(({ stage, round, importance, status, opponent, won, playedOn, scores }) => ({
    stage: round === null || stage === null ? (importance ?? 'game') : stageRoundName({ stage, round }, rounds),
    opponent,
    outcome: outcomeOf(round, status, won, scores),
    score: scores.map(([own, other]) => `${own}-${other}`).join(', '),
    forfeited: status === 'forfeited',
    playedOn,
  }));
}

function outcomeOf(
  round: number | null,
  status: string,
  won: boolean | null,
  scores: PathRow['scores'],
): PathStep['outcome'] {
  if (won !== null) return won ? 'won' : 'lost';
  if (status === 'open' || status === 'ready') return 'to be played';
  // A game outside the bracket has no winner noted but its score; a match without a winner was drawn or not noted.
  const [score] = scores;
  if (round !== null || score === undefined) return 'not noted';
  const [own, other] = score;
  return own === other ? 'drawn' : own > other ? 'won' : 'lost';
}
