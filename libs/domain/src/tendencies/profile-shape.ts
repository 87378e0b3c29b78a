import type { ShareEstimate } from '../statistics/dirichlet-multinomial-posterior.js';
import type { Interval } from '../statistics/interval.js';
import type { DimensionName } from './dimension-names.js';
import type { Evidence } from './evidence.js';
import type { Prior } from './prior.js';
import type { SituationKey } from './situation-keys.js';
import type { Side } from './tendency-plays.js';
import type { ValueShare } from './value-share.js';

/** How often something happened in the field, the asked player's own plays left out. */
export interface FieldShare {
  /** In [0, 1]. */
  readonly share: number;
  readonly count: number;
  /** Plays of the field on which it was known, ≥ 1. */
  readonly known: number;
}

/** What came of some plays. Parts that no play knows are null, never 0. */
export interface Results {
  /** Plays that succeeded or failed; the others have no result that counts. */
  readonly trials: number;
  readonly successes: number;
  /** Success rate with its Wilson interval; for a defense the rate of the offenses against it. */
  readonly success: ShareEstimate | null;
  readonly fieldSuccess: FieldShare | null;
  readonly yards: { readonly plays: number; readonly mean: number } | null;
  readonly explosive: { readonly plays: number; readonly count: number; readonly share: number } | null;
}

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
