/**
 * The places of each player's plays, found without looking at the others'.
 *
 * @param playerOf - one player's number a play, -1 for nobody's
 * @param players  - numbers are below this
 * @returns the ascending places of a player's plays; nobody's for a number outside 0 to players - 1
 */
export function playsByPlayer(playerOf: Int32Array, players: number): (player: number) => Int32Array {
  const starts = new Int32Array(players + 1);
  for (const player of playerOf) if (player >= 0) starts[player + 1] = (starts[player + 1] ?? 0) + 1;
  for (let player = 0; player < players; player += 1) {
    starts[player + 1] = (starts[player + 1] ?? 0) + (starts[player] ?? 0);
  }
  const places = new Int32Array(starts[players] ?? 0);
  const next = starts.slice();
  for (let play = 0; play < playerOf.length; play += 1) {
    const player = playerOf[play] ?? -1;
    if (player < 0) continue;
    const at = next[player] ?? 0;
    places[at] = play;
    next[player] = at + 1;
  }
  return (player) => (player < 0 ? new Int32Array(0) : places.subarray(starts[player], starts[player + 1]));
}
