import { aGameRecord, aPlayRecord } from './small-league.js';

type Cells = Readonly<Record<string, unknown>>;

/**
 * Games of Mossback against Brass Heron, one after the other in the order of the days: each with the given snaps of
 * Mossback's offense, numbered from 1 and 30 seconds apart on the video.
 */
export function gamesOf(
  snapsOfGames: readonly (readonly Cells[])[],
  cells: (game: number) => Cells = () => ({}),
): Cells[] {
  return snapsOfGames.flatMap((snaps, game) => {
    const reference = `pond-${game + 1}`;
    const day = `${game + 1}`.padStart(2, '0');
    return [
      aGameRecord({ reference, playedAt: `2026-03-${day}T12:00:00Z`, ...cells(game) }),
      ...snaps.map((snap, at) =>
        aPlayRecord({ game: reference, order: at + 1, lineUpSecond: 30 * at + 4, snapSecond: 30 * at + 10, ...snap }),
      ),
    ];
  });
}

/** Second and eight in midfield, with the quarter and the drive that order needs. */
export const SECOND_AND_EIGHT: Cells = {
  quarter: 1,
  drive: 1,
  down: 2,
  distance: 8,
  yardsToGoal: 55,
  snapResult: 'rushed',
  yardsGained: 4,
};

/** So many snaps, each made from its place. */
export function snaps(count: number, of: (place: number) => Cells): Cells[] {
  return Array.from({ length: count }, (_, place) => ({ ...SECOND_AND_EIGHT, ...of(place) }));
}
