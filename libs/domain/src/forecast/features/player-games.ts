/** Whose plays in which game, and what was called; one entry a play of the batch. */
export interface PlaysInGames {
  /** Number of the play's game, which never falls from one play to the next. */
  readonly game: Int32Array;
  /** Whose habit is forecast, -1 where unknown. */
  readonly player: Int32Array;
  /** Class of each play; read at the rows that are asked about only. */
  readonly outcome: Int32Array;
}

/**
 * Visits plays in their order with what their player's earlier ones in the same game left behind. Plays whose player is not
 * known are passed over.
 *
 * @param rows  - ascending places of the plays
 * @param begin - what a player begins a game with; asked once a game, in the order of games; `visit` may change it for the
 *   next play
 */
export function visitPlayerGames<SoFar>(
  { game, player }: PlaysInGames,
  rows: Int32Array,
  begin: (player: number) => SoFar,
  visit: (row: number, soFar: SoFar) => void,
): void {
  const inGame = new Map<number, SoFar>();
  let current = -1;
  for (const row of rows) {
    if (game[row] !== current) {
      current = game[row] ?? -1;
      inGame.clear();
    }
    const key = player[row] ?? -1;
    if (key < 0) continue;
    let soFar = inGame.get(key);
    if (soFar === undefined) inGame.set(key, (soFar = begin(key)));
    visit(row, soFar);
  }
}
