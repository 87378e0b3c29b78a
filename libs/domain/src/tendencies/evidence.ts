import type { PlayColumns } from '../charting/play-columns.js';

/** A play as evidence cites it. */
export interface PlayReference {
  /** Place of the chart in the batch's list of charts. */
  readonly chartIndex: number;
  readonly playNumber: number;
}

/**
 * The plays that a figure was computed from. They are looked up when asked for: a profile holds thousands of figures,
 * and a reader opens the film of a few.
 */
export class Evidence {
  /**
   * @param plays   - the batch
   * @param among   - places of plays in the batch, in order
   * @param belongs - whether the play at a place is one of those meant
   */
  constructor(
    private readonly plays: PlayColumns,
    private readonly among: Int32Array,
    private readonly belongs: (play: number) => boolean,
  ) {}

  /**
   * Places of the plays in the batch, ascending.
   *
   * @param limit - at most this many; all when left out
   */
  places(limit = Number.POSITIVE_INFINITY): number[] {
    const places: number[] = [];
    for (const play of this.among) {
      if (places.length >= limit) break;
      if (this.belongs(play)) places.push(play);
    }
    return places;
  }

  /** @param limit - at most this many, the earliest first; all when left out */
  references(limit?: number): PlayReference[] {
    return this.places(limit).map((play) => this.reference(play));
  }

  private reference(play: number): PlayReference {
    return { chartIndex: this.plays.chartIndex[play] ?? -1, playNumber: this.plays.playNumber[play] ?? -1 };
  }
}
