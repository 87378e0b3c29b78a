import { UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import type { Clip } from './call-sheet-shape.js';

const CLIPS_A_CELL = 2;

/** Clips as a sheet numbers them, in the order in which it names them; a play has one number wherever it is named. */
export class ClipList {
  readonly #clips = new Map<number, Clip>();
  readonly #seconds: Int16Array;

  constructor(private readonly plays: PlayColumns) {
    this.#seconds = plays.number('snapSecond').values;
  }

  /** @param places - of plays, the ones to see first in front; those without a second are passed over */
  add(places: readonly number[], reason: string): number[] {
    const seen = places.filter((play) => (this.#seconds[play] ?? UNKNOWN_NUMBER) !== UNKNOWN_NUMBER);
    return seen.slice(0, CLIPS_A_CELL).map((play) => {
      const known = this.#clips.get(play);
      if (known !== undefined) return known.number;
      const chart = this.plays.charts[this.plays.chartIndex[play] ?? -1];
      const clip = {
        number: this.#clips.size + 1,
        play: { chartId: chart?.chartId ?? '', playNumber: this.plays.playNumber[play] ?? -1 },
        gameId: chart?.gameId ?? '',
        second: this.#seconds[play] ?? 0,
        reason,
      };
      this.#clips.set(play, clip);
      return clip.number;
    });
  }

  all(): Clip[] {
    return [...this.#clips.values()];
  }
}
