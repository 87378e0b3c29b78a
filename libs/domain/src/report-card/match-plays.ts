import type { Vocabulary } from '../charting/vocabulary.js';
import type { Side, TendencyPlays } from '../tendencies/tendency-plays.js';
import type { ChartedGame } from './judged-games.js';

/** Plays that a report is judged by, in the batch that holds them. */
export interface MatchPlays {
  /** Everything that the reader may see, or a part of it; the games judged among it. */
  readonly facts: TendencyPlays;
  /** One a chart of the batch. */
  readonly games: readonly ChartedGame[];
  readonly vocabulary: Vocabulary;
  /** Identity of the opponent. */
  readonly opponent: string;
  /** Ascending places of every play of these games. */
  readonly all: Int32Array;
}

/** @param charts - places of the charts in the batch */
export function matchPlays(of: Omit<MatchPlays, 'all'>, charts: readonly number[]): MatchPlays {
  const wanted = new Set(charts);
  const { plays } = of.facts;
  const all = Int32Array.from({ length: plays.count }, (_, play) => play).filter((play) =>
    wanted.has(plays.chartIndex[play] ?? -1),
  );
  return { ...of, all };
}

/** Whether the opponent has the ball. */
export function opponentHasBall({ facts, games, opponent }: MatchPlays, play: number): boolean {
  const game = games[facts.plays.chartIndex[play] ?? -1];
  return (facts.plays.offenseIsHome[play] === 1 ? game?.homePlayerId : game?.awayPlayerId) === opponent;
}

/** The counting plays that show the opponent's habits on one side of the ball. */
export function opponentSnaps(match: MatchPlays, side: Side): Int32Array {
  return match.all.filter(
    (play) => match.facts.counts[play] === 1 && opponentHasBall(match, play) === (side === 'offense'),
  );
}

/** What is drawn anew as a whole: games where there are several, else drives, else single plays. */
export function clustersOf(
  { facts }: MatchPlays,
  places: Int32Array,
): { readonly drawn: 'games' | 'drives' | 'plays'; readonly cluster: Int32Array } {
  const { plays } = facts;
  const games = places.map((play) => plays.chartIndex[play] ?? -1);
  if (new Set(games).size > 1) return { drawn: 'games', cluster: games };
  const drive = plays.number('drive').values;
  const drives = places.map((play) => drive[play] ?? -1);
  // A chart that lacks the drive of some plays would make one false cluster of them.
  const known = drives.every((number) => number > 0);
  return known && new Set(drives).size > 1
    ? { drawn: 'drives', cluster: drives }
    : { drawn: 'plays', cluster: places.map((_, place) => place) };
}
