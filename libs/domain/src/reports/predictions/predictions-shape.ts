import type { DimensionName } from '../../tendencies/dimension-names.js';
import type { Side } from '../../tendencies/tendency-plays.js';

/** What a report held probable when it was made, so that any later play can be scored against it. */
export interface PredictedTable {
  readonly side: Side;
  readonly dimension: DimensionName;
  readonly label: string;
  /** In the order of the shares of a row. */
  readonly classes: readonly PredictedClass[];
  /** All snaps first, for plays whose situation is not known. */
  readonly rows: readonly PredictedRow[];
}

export interface PredictedClass {
  readonly valueKey: string;
  readonly label: string;
}

export interface PredictedRow {
  readonly situation: string;
  /** Plays of the player that the row rests on beside the field; 0 makes it the field's row. */
  readonly known: number;
  /** Probabilities of the player, one a class, adding up to 1. */
  readonly shares: readonly number[];
  /** The same of the other players together, which is the baseline. */
  readonly fieldShares: readonly number[];
}
