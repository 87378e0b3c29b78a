import type { Interval } from '../statistics/interval.js';
import type { DimensionName } from './dimension-names.js';
import type { Evidence } from './evidence.js';
import type { Prior } from './prior.js';
import type { Results } from './results-shape.js';
import type { SituationKey } from './situation-keys.js';
import type { Side } from './tendency-plays.js';
import type { ValueShare } from './value-share.js';

/** That something was seen goes with how the play ended, so that its shares may mislead. */
export interface VisibilityWarning {
  readonly knownOnSuccesses: number;
  readonly successes: number;
  readonly knownOnFailures: number;
  readonly failures: number;
  /** Known share on successes less that on failures: Newcombe's 99 % interval, which leaves out 0. */
  readonly difference: Interval;
}

export interface DimensionProfile {
  readonly dimension: DimensionName;
  readonly label: string;
  /** Plays of the situation on which the dimension is known. */
  readonly known: number;
  /** Kish's effective number of known plays; equals `known` without weights. */
  readonly effectiveKnown: number;
  /** How much the field's players differ, as the shrinkage takes it; null where the field has no plays. */
  readonly prior: Prior | null;
  /** Values seen, and unseen ones that the field uses often; most frequent first. Empty when nothing is known. */
  readonly values: readonly ValueShare[];
  /** Judged over all snaps only; null elsewhere and where there is nothing to warn of. */
  readonly visibility: VisibilityWarning | null;
}

export interface SituationProfile {
  readonly situation: SituationKey;
  readonly snaps: number;
  readonly games: number;
  readonly results: Results;
  readonly dimensions: readonly DimensionProfile[];
  readonly evidence: Evidence;
}

/** What a player does on one side of the ball. A player without plays has no situations: nothing is known, not zero. */
export interface Profile {
  readonly side: Side;
  readonly confidence: number;
  /** Counting snaps. */
  readonly snaps: number;
  readonly games: number;
  /** All snaps first, then the situations that occurred, in the order of their list. */
  readonly situations: readonly SituationProfile[];
}
