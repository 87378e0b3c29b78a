import type { DimensionName } from './dimension-names.js';
import type { Side, TendencyPlays, Terms } from './tendency-plays.js';

export interface FieldModelInput {
  readonly facts: TendencyPlays;
  readonly side: Side;
  /** For each play the player whose habit it shows: who has the ball, or on defense who defends; -1 for nobody's. */
  readonly playerOf: Int32Array;
  /** playerOf is below this. */
  readonly players: number;
  readonly terms: Terms;
  /** All of the side's when left out. */
  readonly dimensions?: readonly DimensionName[];
}

export declare class FieldModel {
  readonly side: Side;
}

/** The field's habits, from all visible plays; fits lazily, to be kept as long as the archive's revision. */
export declare function fieldModel(input: FieldModelInput): FieldModel;
