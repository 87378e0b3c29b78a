/** Ids that the documentation's examples use, so that one example leads to the next. */
export const EXAMPLE_IDS = {
  player: '01890a5d-ac96-774b-bcce-b302099a8057',
  opponent: '01890a5d-ac96-774b-bcce-b302099a8058',
  event: '01890a5d-ac96-774b-bcce-b302099a8059',
  entrant: '01890a5d-ac96-774b-bcce-b302099a805a',
  match: '01890a5d-ac96-774b-bcce-b302099a805b',
  game: '01890a5d-ac96-774b-bcce-b302099a805c',
  contest: '01890a5d-ac96-774b-bcce-b302099a805d',
  chart: '01890a5d-ac96-774b-bcce-b302099a805e',
  menuCall: '01890a5d-ac96-774b-bcce-b302099a805f',
  clan: '01890a5d-ac96-774b-bcce-b302099a8061',
} as const;

/** A play as an answer cites it. */
export const EXAMPLE_PLAY = {
  chartId: EXAMPLE_IDS.chart,
  gameId: EXAMPLE_IDS.game,
  playNumber: 41,
  second: 1284,
};

/** What an answer about a player begins with. */
export const EXAMPLE_HEAD = {
  playerId: EXAMPLE_IDS.player,
  handle: 'Mossback',
  side: 'offense',
  confidence: 0.9,
  newestGame: '2026-03-01',
};
