import type { Vocabulary } from '../../charting/vocabulary.js';
import type { TendencyPlays } from '../tendency-plays.js';

/** Everybody's plays, for a player to be held against. A field model is one. */
export interface FieldPlays {
  readonly facts: TendencyPlays;
  /** For each play the player whose habit it shows, -1 for nobody's. */
  readonly playerOf: Int32Array;
}

/** Whose plays are asked about, and what they are held against. */
export interface AskedPlays {
  /** The player's plays only: those with the ball for habits of the offense, those of opponents for the defense's. */
  readonly facts: TendencyPlays;
  /** Null where there is no field to compare with. */
  readonly field: FieldPlays | null;
  /** The player's number in the field, whose plays are left out of it; -1 where the field has none. */
  readonly player: number;
  /** By whose canonical ids both batches were gathered. */
  readonly vocabulary: Vocabulary;
  /** Of every interval, in (0, 1). */
  readonly confidence: number;
}

/** Ascending places of every play of the field that shows another player's habit. */
export function othersPlaces({ facts, playerOf }: FieldPlays, player: number): Int32Array {
  const places = new Int32Array(facts.plays.count);
  let size = 0;
  for (let play = 0; play < places.length; play += 1) {
    const whose = playerOf[play] ?? -1;
    if (whose >= 0 && whose !== player) places[size++] = play;
  }
  return places.subarray(0, size);
}

/** Ascending places of a whole batch. */
export function allPlaces({ plays }: TendencyPlays): Int32Array {
  return Int32Array.from({ length: plays.count }, (_, place) => place);
}
