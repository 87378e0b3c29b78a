import type { TendencyPlays } from '../tendency-plays.js';
import { counted } from './count-words.js';

/** What an answer rests on. */
export interface RestsOn {
  /** Counting snaps. */
  readonly snaps: number;
  readonly games: number;
  /** What the answer is about, and on how many of the snaps it was charted; null where it has many parts. */
  readonly about: { readonly label: string; readonly known: number } | null;
  /** Games left out because their chart did not look at every snap. */
  readonly gamesLeftOut: number;
}

/** Below this many known plays hardly any interval here is narrower than forty points. */
export const FEW_PLAYS = 40;

/** What an answer rests on, and how little that is where it is little. */
export function restsOnWords({ snaps, games, about, gamesLeftOut }: RestsOn): string {
  const leftOut =
    gamesLeftOut === 0 ? [] : [`${counted(gamesLeftOut, 'game')} left out, of which only some snaps were charted`];
  if (snaps === 0) return ['no charted play fits: nothing is known', ...leftOut].join('; ');
  const words = [`rests on ${counted(snaps, 'snap')} of ${counted(games, 'game')}`];
  if (about !== null && about.known < snaps) words.push(`${about.label} known on ${about.known} of ${snaps}`);
  if ((about?.known ?? snaps) < FEW_PLAYS) words.push('so little that the counts say more than any share');
  if (games === 1) words.push('one game only: what looks like a habit may be its plan');
  return [...words, ...leftOut].join('; ');
}

/** Counting snaps of a batch and the games that they are from. */
export function snapsAndGames({ plays, counts }: TendencyPlays): { readonly snaps: number; readonly games: number } {
  const games = new Set<string>();
  let snaps = 0;
  for (let play = 0; play < counts.length; play += 1) {
    if (counts[play] !== 1) continue;
    snaps += 1;
    games.add(plays.charts[plays.chartIndex[play] ?? -1]?.gameId ?? '');
  }
  return { snaps, games: games.size };
}

/** Counting snaps on which something is known. @param codes - one a play, -1 unknown */
export function knownCounting({ counts }: TendencyPlays, codes: ArrayLike<number>): number {
  let known = 0;
  for (let play = 0; play < counts.length; play += 1) {
    if (counts[play] === 1 && (codes[play] ?? -1) >= 0) known += 1;
  }
  return known;
}
