import { duelTree, type DuelNode } from '../tendencies/adjustments/duel-tree.js';
import type { DuelStep } from '../tendencies/adjustments/duel-steps.js';
import type { AskedPlays } from '../tendencies/decisions/asked-plays.js';
import type { CountedShare } from '../tendencies/decisions/counted-share.js';
import type { Results } from '../tendencies/results-shape.js';
import type { Side } from '../tendencies/tendency-plays.js';

/** What the opponent does once a move of ours is seen, and what was done about that. */
export interface Adjustment {
  /** Our move, as others made it. */
  readonly shown: DuelStep;
  /** Plays on which it opened the duel. */
  readonly plays: number;
  /** Plays on which the ball was snapped without an answer. */
  readonly snapped: number;
  /** Their answers, most frequent first. */
  readonly answers: readonly AdjustmentAnswer[];
}

export interface AdjustmentAnswer {
  readonly answer: DuelStep;
  /** Of the plays on which our move was seen. */
  readonly share: CountedShare;
  /** Of the plays on which it went that far, whatever followed. */
  readonly results: Results;
  /** What was done next by our side, and what came of it. */
  readonly then: readonly { readonly move: DuelStep; readonly share: CountedShare; readonly results: Results }[];
  /** Plays on which the ball was snapped after their answer. */
  readonly snapped: number;
}

/**
 * Two steps of the duel: our move, what this opponent answered, and what was done about the answer, each with its counts.
 * Only duels that our side opened take part.
 *
 * @param asked - the opponent's plays
 * @param side  - the opponent's side of the ball in them
 * @throws DomainError `stats.invalid_probability`
 * @see duelTree
 */
export function reAdjustments(asked: AskedPlays, side: Side): Adjustment[] {
  const { root } = duelTree(asked, 3);
  const theirs = (node: DuelNode): boolean => node.path.at(-1)?.by === side;
  const ours = (node: DuelNode): boolean => {
    const by = node.path.at(-1)?.by ?? null;
    return by !== null && by !== side;
  };
  return root.children.filter(ours).flatMap((shown): Adjustment[] => {
    const [step] = shown.path;
    if (step === undefined) return [];
    return [
      {
        shown: step,
        plays: shown.share.count,
        snapped: shown.snapped,
        answers: shown.children.filter(theirs).flatMap((answered) => {
          const answer = answered.path.at(-1);
          if (answer === undefined) return [];
          return [
            {
              answer,
              share: answered.share,
              results: answered.results,
              snapped: answered.snapped,
              then: answered.children.filter(ours).flatMap((next) => {
                const move = next.path.at(-1);
                return move === undefined ? [] : [{ move, share: next.share, results: next.results }];
              }),
            },
          ];
        }),
      },
    ];
  });
}
