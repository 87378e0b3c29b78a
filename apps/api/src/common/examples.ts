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
} as const;
