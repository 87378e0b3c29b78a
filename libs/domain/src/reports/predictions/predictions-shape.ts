import type { SeenPart } from '../../forecast/frozen/seen-parts.js';
import type { DimensionName } from '../../tendencies/dimension-names.js';
import type { Side } from '../../tendencies/tendency-plays.js';

/** What the shares that a report prints made probable when it was made, so that any later play can be scored against it. */
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

/**
 * What the forecast of next calls said when the report was made, by what shows before the snap. The probability of a class
 * is the product of its shares in `start` and in one row of every part, divided by the sum of these products over the
 * classes; a row of equal shares says nothing.
 */
export interface ForecastTable extends Omit<PredictedTable, 'rows'> {
  /** Calls that it was learned from, of how many games, and those of the player among them. */
  readonly learnedFrom: { readonly calls: number; readonly games: number; readonly ofPlayer: number };
  readonly start: ForecastShares;
  readonly parts: readonly ForecastPart[];
}

export interface ForecastPart {
  /** What is looked at. */
  readonly reads: SeenPart;
  /** A value that has no row says nothing. */
  readonly rows: readonly ForecastRow[];
}

export interface ForecastShares {
  /** One a class, all above 0, adding up to 1. */
  readonly shares: readonly number[];
  /** The same of a player of whom nothing is known, which is the baseline. */
  readonly anybodyShares: readonly number[];
}

export interface ForecastRow extends ForecastShares {
  /** Null of the plays on which the part is not known. */
  readonly valueKey: string | null;
}
