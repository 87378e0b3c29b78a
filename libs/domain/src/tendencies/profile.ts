import type { DimensionName } from './dimension-names.js';
import type { FieldModel } from './field-model.js';
import type { Profile } from './profile-shape.js';
import type { SituationKey } from './situation-keys.js';
import type { Side, TendencyPlays, Terms } from './tendency-plays.js';

export interface ProfileInput {
  /** The player's plays only: those with the ball for offense, those without for defense. */
  readonly plays: TendencyPlays;
  readonly side: Side;
  readonly terms: Terms;
  readonly fieldModel: FieldModel;
  /** The player's number in the field model, whose plays are left out of the field; -1 where the field has none. */
  readonly player: number;
  readonly confidence: number;
  /** All of the side's when left out. */
  readonly dimensions?: readonly DimensionName[];
  /** All that occurred when left out. */
  readonly situations?: readonly SituationKey[];
  /** Recency weights, one a play, >= 0. */
  readonly weights?: Float64Array;
}

/** What a player does, by situation, with uncertainty. */
export declare function profile(input: ProfileInput): Profile;
