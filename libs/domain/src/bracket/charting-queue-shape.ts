import type { DimensionName } from '../tendencies/dimension-names.js';
import type { Side } from '../tendencies/tendency-plays.js';

/** One share table of a report on somebody who may be met: what is not known of it yet, and how much that matters. */
export interface QueueCell {
  /** Whose habit, by a number of the caller's. */
  readonly player: number;
  readonly side: Side;
  /** Place in the caller's list of situations. */
  readonly situation: number;
  readonly dimension: DimensionName;
  /** Posterior variance of its shares, summed over the values, ≥ 0. */
  readonly variance: number;
  /** Plays that the posterior is worth: the prior's weight and the known plays together, > 0. */
  readonly weight: number;
  /** Probability of meeting the player at least once, in [0, 1]. */
  readonly meeting: number;
}

/** Snaps of one down in one quarter of a game with one player on offense: the least that a scope of film can name. */
export interface FilmPart {
  readonly game: number;
  /** Whose habits it shows, by the numbers of the cells; -1 for somebody who is not asked about. */
  readonly offense: number;
  readonly defense: number;
  readonly offenseIsHome: boolean;
  readonly down: number;
  readonly quarter: number;
  /** Expected snaps by situation. */
  readonly plays: ArrayLike<number>;
  /** How much a snap of this game says of today, in (0, 1]. */
  readonly recency: number;
}

/** A stretch of film that is charted at one go, as a chart's scope has it. */
export interface FilmBundle {
  readonly name: string;
  /** Null: all. */
  readonly downs: readonly number[] | null;
  readonly quarters: readonly number[] | null;
}

/** Which fields are filled in, and what that takes. */
export interface FieldSet {
  readonly name: string;
  readonly dimensions: ReadonlySet<DimensionName>;
  readonly secondsAPlay: number;
}

export interface QueueInput {
  readonly cells: readonly QueueCell[];
  readonly parts: readonly FilmPart[];
  readonly bundles: readonly FilmBundle[];
  readonly fieldSets: readonly FieldSet[];
  /** Share of charted snaps on which a dimension is known, in [0, 1]. */
  readonly knownShare: (dimension: DimensionName) => number;
  /** Each charter has. */
  readonly minutes: number;
  readonly charters: number;
}

/** A piece of work: what to chart, how long it takes, and what it is expected to settle. */
export interface QueueSegment {
  readonly game: number;
  readonly offenseIsHome: boolean;
  readonly bundle: FilmBundle;
  /** Of the bundle what was not charted or chosen before; null: all. */
  readonly downs: readonly number[] | null;
  readonly quarters: readonly number[] | null;
  readonly fieldSet: FieldSet;
  readonly plays: number;
  readonly minutes: number;
  /** From 0. */
  readonly charter: number;
  /** Minutes of this charter's own work before it. */
  readonly startsAfter: number;
  /** Expected fall of the summed variance, weighted by the odds of meeting. */
  readonly gain: number;
  /** The cells that gain most, the first first. */
  readonly settles: readonly { readonly cell: QueueCell; readonly plays: number; readonly gain: number }[];
}

export interface ChartingQueue {
  readonly segments: readonly QueueSegment[];
  /** Summed variance of all cells, weighted by the odds of meeting: now, and expected after all of it. */
  readonly before: number;
  readonly after: number;
}
