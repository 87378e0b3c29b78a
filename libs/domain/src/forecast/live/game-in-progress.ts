import type { TendencyPlays } from '../../tendencies/tendency-plays.js';
import type { EarlierCalls } from '../features/earlier-features.js';
import type { CountedCalls } from './call-archive.js';

/**
 * The snap to come, and the player's own earlier snaps of the game, in their order: the last play is the one to come. Of a
 * game that the model was asked of before, those since then.
 */
export interface GameSoFar {
  readonly facts: TendencyPlays;
  /** What was called on each of the earlier snaps: a class of the archive, -1 where unknown or not in it. */
  readonly classOf: Int32Array;
}

/** What the snaps of a game so far say about the next one. Plain data that nothing writes to. */
export interface GameTold {
  readonly earlier: EarlierCalls;
  /** Calls that are known of these snaps, how many of each class, and how many of it the model expected of them. */
  readonly known: number;
  readonly counts: Float64Array;
  readonly expected: Float64Array;
}

/** What a fitted model says of the snap to come, and which calls it learned that from. */
export interface ModelSays {
  /** Of the classes. */
  readonly shares: Float64Array;
  readonly taught: CountedCalls;
  /** By the snaps of the game before it. */
  readonly told: GameTold;
}
