import { STARTER_TERMS } from '../../charting/starter-vocabulary.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import type { TendencyPlays } from '../tendency-plays.js';

/** One move of the duel before the snap. */
export interface DuelStep {
  /** Who made it; null for a clan's own term that stands for no starter term. */
  readonly by: 'offense' | 'defense' | null;
  readonly termId: number;
  readonly label: string;
}

const SIDE_OF_CODE: ReadonlyMap<string, 'offense' | 'defense'> = new Map(
  STARTER_TERMS.flatMap(({ code, by }) => (by === undefined ? [] : [[code, by] as const])),
);

/** The duels of a batch. */
export interface Duels {
  /** The moves that occur; a play's moves are places in this list. */
  readonly steps: readonly DuelStep[];
  /** A play's moves in their order, empty where there were none; null where the chart does not say. */
  readonly of: (play: number) => Int16Array | null;
}

/** Reads preSnapAdjustments; a move's side is that of its term, or of the nearest forebear that has one. */
export function readDuels({ plays }: TendencyPlays, vocabulary: Vocabulary): Duels {
  const { starts, codes, meanings, known } = plays.list('preSnapAdjustments');
  return {
    steps: meanings.map((termId) => ({
      by: sideOf(termId, vocabulary),
      termId,
      label: vocabulary.byId(termId)?.name ?? `term ${termId}`,
    })),
    of: (play) => (known[play] === 1 ? codes.subarray(starts[play], starts[play + 1]) : null),
  };
}

function sideOf(termId: number, vocabulary: Vocabulary): DuelStep['by'] {
  let at = vocabulary.canonicalId(termId);
  while (at !== null) {
    const side = SIDE_OF_CODE.get(vocabulary.byId(at)?.code ?? '');
    if (side !== undefined) return side;
    at = vocabulary.parentId(at);
  }
  return null;
}
