import type { PlayColumns } from '../charting/play-columns.js';

/** Whose habit is asked for: what a player calls with the ball, or what a player's own defense does. */
export type Side = 'offense' | 'defense';

/**
 * A batch of plays with what football says about each of them. Every array has one entry a play. The situation may be
 * any partition of the plays: down and distance, the zones of the field, or a clan's own.
 */
export interface TendencyPlays {
  readonly plays: PlayColumns;
  /** Place of the play's situation in `situationNames`, -1 where it is not known or has none. */
  readonly situation: Int8Array;
  readonly situationNames: readonly string[];
  /** 1 where the play counts for call shares: no kick, kneel, spike or try. */
  readonly counts: Uint8Array;
  /** 1 where the play has a result that counts: not replayed, not nullified. */
  readonly hasResult: Uint8Array;
  /** 1 success, 0 failure, -1 neither or not known. */
  readonly success: Int8Array;
  /** 1 explosive, 0 not, -1 not known. */
  readonly explosive: Int8Array;
  /** 0 run called, 1 pass called, -1 not known. */
  readonly called: Int8Array;
  /**
   * Expected points that each play added, from the offense's view; UNKNOWN_POINTS where not known. Left out where no
   * archive's chain was at hand: it needs whole charts, which a player's plays are not.
   */
  readonly pointsAdded?: Float64Array;
}
