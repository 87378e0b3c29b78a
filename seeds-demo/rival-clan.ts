import { ARCHIVED_GAMES } from './film.js';
import type { SeasonGame } from './season.js';

/** A clan that scouts the same opponent as ours, on its own, and shows nobody what it charts. */
export const RIVAL_CLAN = 'Slate Harbour Notebook';

const SCOUTED = 'GraniteMuffin';
const GAMES = 2;

/** The latest games of the opponent that the organizer did not archive. */
export function scoutedByRival(games: readonly SeasonGame[]): readonly SeasonGame[] {
  return games
    .filter(({ reference, home, away }) => !ARCHIVED_GAMES.includes(reference) && [home, away].includes(SCOUTED))
    .sort((one, other) => Date.parse(other.playedAt) - Date.parse(one.playedAt))
    .slice(0, GAMES);
}
