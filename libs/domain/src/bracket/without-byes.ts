import { elementAt } from '../statistics/element-at.js';
import type { BracketMatch, Source } from './bracket-shape.js';

/** As a source of a bracket that is still being built: a place with nobody in it. */
export interface Bye {
  readonly from: 'bye';
}

export type DraftSource = Source | Bye;

export interface DraftMatch extends Omit<BracketMatch, 'home' | 'away'> {
  readonly home: DraftSource;
  readonly away: DraftSource;
}

const BYE: Bye = { from: 'bye' };

/**
 * Leaves out the matches of a full bracket that nobody plays because a side is empty: who is alone in a match moves on
 * without one. Rounds and positions stay those of the full bracket.
 *
 * @param drafts - each after the matches that feed it
 */
export function withoutByes(drafts: readonly DraftMatch[]): BracketMatch[] {
  const kept: BracketMatch[] = [];
  const outcomes: { readonly winner: DraftSource; readonly loser: DraftSource }[] = [];
  const resolved = (source: DraftSource): DraftSource =>
    source.from === 'winner' || source.from === 'loser' ? elementAt(outcomes, source.match)[source.from] : source;
  for (const draft of drafts) {
    const [home, away] = [resolved(draft.home), resolved(draft.away)];
    if (home.from === 'bye' || away.from === 'bye') {
      outcomes.push({ winner: home.from === 'bye' ? away : home, loser: BYE });
      continue;
    }
    const match = kept.length;
    kept.push({ ...draft, home, away });
    outcomes.push({ winner: { from: 'winner', match }, loser: { from: 'loser', match } });
  }
  return kept;
}
