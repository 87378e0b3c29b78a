import type { ShareEstimate } from '../statistics/dirichlet-multinomial-posterior.js';
import type { PointsAdded } from './points-added.js';

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
  /** Null also where the batch carries no expected points. */
  readonly pointsAdded: PointsAdded | null;
}
