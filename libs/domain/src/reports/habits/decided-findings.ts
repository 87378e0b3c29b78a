import type { CountedShare } from '../../tendencies/decisions/counted-share.js';
import type { PartitionedShare } from '../../tendencies/decisions/partitions.js';
import { DECISION_WORDS, decisionWords, partWords, type DecisionName } from '../../tendencies/words/decision-words.js';
import { ofShare, type HabitFinding } from './habit-claims.js';

/** Below this the whole says all that a part could. A choice, no source. */
export const FEWEST_OF_A_PART = 3;

/** A decision in all (null) or in one part of a partition. */
export interface DecidedPart {
  readonly name: DecisionName;
  readonly part: { readonly partition: string; readonly part: string } | null;
  readonly share: CountedShare;
}

export function partsOf(name: DecisionName, by: readonly PartitionedShare[]): DecidedPart[] {
  return by.flatMap(({ partition, parts }) =>
    parts.map(({ part, share }): DecidedPart => ({ name, part: { partition, part }, share })),
  );
}

export function decidedFinding({ name, part, share }: DecidedPart, established: boolean): HabitFinding {
  const { scout } = DECISION_WORDS[name];
  return {
    ...ofShare(share),
    key: part === null ? [name] : [name, part.partition, part.part],
    label: part === null ? scout : `${scout}, ${partWords(part)}`,
    words: decisionWords(name, share, part, 'scout'),
    status: established ? 'established' : 'counted',
  };
}
