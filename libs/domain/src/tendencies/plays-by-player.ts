/**
 * The places of each player's plays, found without looking at games of others. Kept is in which games a player was, and not
 * where each play is, which would take four bytes for every play of an archive.
 *
 * @param playerOf   - one player's number a play, -1 for nobody's
 * @param chartIndex - of the same plays; those of one chart lie together, and where they do not, nothing but time is lost
 * @param players    - numbers are below this
 * @returns the ascending places of a player's plays; nobody's for a number outside 0 to players - 1
 */
export function playsByPlayer(
  playerOf: Int32Array,
  chartIndex: Int32Array,
  players: number,
): (player: number) => Int32Array {
  const starts: number[] = [];
  const runsOf = Array.from({ length: players }, (): number[] => []);
  const lastRunOf = new Int32Array(players).fill(-1);
  for (let play = 0; play < playerOf.length; play += 1) {
    if (play === 0 || chartIndex[play] !== chartIndex[play - 1]) starts.push(play);
    const [player, run] = [playerOf[play] ?? -1, starts.length - 1];
    if (player < 0 || lastRunOf[player] === run) continue;
    lastRunOf[player] = run;
    runsOf[player]?.push(run);
  }
  return (player) => {
    const places: number[] = [];
    for (const run of runsOf[player] ?? []) {
      const end = starts[run + 1] ?? playerOf.length;
      for (let play = starts[run] ?? 0; play < end; play += 1) if (playerOf[play] === player) places.push(play);
    }
    return Int32Array.from(places);
  };
}
