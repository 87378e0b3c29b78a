import type { ShareEstimate } from '../statistics/dirichlet-multinomial-posterior.js';
import type { DimensionName, DimensionValue } from './dimension-names.js';
import type { Evidence } from './evidence.js';
import type { Prior } from './prior.js';
import type { SituationKey } from './situation-keys.js';
import type { Side } from './tendency-plays.js';

/** How often something happened in the field, the asking player's own plays left out. */
export interface FieldShare {
  /** In [0, 1]. */
  readonly share: number;
  readonly count: number;
  /** Plays of the field on which it was known. */
  readonly known: number;
}

/** What came of some plays. Parts that no play knows are null, never 0. */
export interface Results {
  /** Plays that succeeded or failed; the others have no result. */
  readonly trials: number;
  readonly successes: number;
  /** Success rate with its Wilson interval; for a defense the rate of the offenses against it. */
  readonly success: ShareEstimate | null;
  readonly fieldSuccess: FieldShare | null;
  readonly yards: { readonly plays: number; readonly mean: number } | null;
  readonly explosive: { readonly plays: number; readonly count: number; readonly share: number } | null;
}

/** How often a player did one thing. */
export interface ValueShare {
  readonly value: DimensionValue;
  /** Plays, unweighted. */
  readonly count: number;
  /** Share of the plays on which the dimension is known, with its Wilson interval; weighted where weights were given. */
  readonly raw: ShareEstimate;
  /** The posterior's mean and interval; null where the field has no plays to shrink towards. */
  readonly shrunk: ShareEstimate | null;
  /** Null where the field has no plays on which the dimension is known. */
  readonly field: FieldShare | null;
  /** The field's share lies outside the raw interval while the shrunk one still holds it: look at the plays. */
  readonly conflict: boolean;
  readonly results: Results;
  readonly evidence: Evidence;
}

/** Whether something was seen goes with how the play ended, so that its shares may mislead. */
export interface VisibilityWarning {
  readonly knownOnSuccesses: number;
  readonly successes: number;
  readonly knownOnFailures: number;
  readonly failures: number;
  /** Two-sided p-value of Fisher's exact test. */
  readonly pValue: number;
}

export interface DimensionProfile {
  readonly dimension: DimensionName;
  readonly label: string;
  /** Plays of the situation on which the dimension is known. */
  readonly known: number;
  /** Kish's effective number of known plays; equals `known` without weights. */
  readonly effectiveKnown: number;
  /** Players and concentrations behind the shrinkage; null where the field has no plays. */
  readonly prior: Prior | null;
  /** Values seen, and unseen ones that the field uses often; most frequent first. Empty when nothing is known. */
  readonly values: readonly ValueShare[];
  readonly visibility: VisibilityWarning | null;
}

export interface SituationProfile {
  readonly situation: SituationKey;
  readonly label: string;
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
  readonly snaps: number;
  readonly games: number;
  /** All snaps first, then the situations that occurred in the order of their names, then drive starts. */
  readonly situations: readonly SituationProfile[];
}
