import type { PlayColumns } from '../charting/play-columns.js';

/**
 * The places of a batch's plays, chart by chart and within a chart in the order in which they were played. Two plays
 * of one chart with the same order keep the order of the batch.
 *
 * @returns places into the batch, one a play
 */
export function playOrder(plays: PlayColumns): Int32Array {
  const { chartIndex, orderInGame } = plays;
  const compare = (a: number, b: number): number =>
    (chartIndex[a] ?? 0) - (chartIndex[b] ?? 0) || (orderInGame[a] ?? 0) - (orderInGame[b] ?? 0);
  const places = new Int32Array(plays.count);
  // Plays are stored in order, so that sorting is the exception and this one pass the rule.
  let inOrder = true;
  for (let place = 0; place < places.length; place += 1) {
    places[place] = place;
    if (place > 0 && compare(place - 1, place) > 0) inOrder = false;
  }
  return inOrder ? places : places.sort((a, b) => compare(a, b) || a - b);
}
