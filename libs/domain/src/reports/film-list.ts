import { UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import type { FilmPick, ReportPlay } from './round-report-shape.js';

/** A claim that film can show. */
export interface FilmClaim {
  readonly id: string;
  /** How much seeing it matters, > 0. */
  readonly weight: number;
  /** What the play shows, in words. */
  readonly reason: string;
  readonly plays: readonly ReportPlay[];
}

interface Candidate {
  readonly play: ReportPlay;
  readonly gameId: string;
  readonly second: number;
  readonly claims: FilmClaim[];
}

/** Each further play of one claim teaches about half of what the one before it did; a choice, no source. */
const SEEN_AGAIN = 0.5;
/** The same for each further play of one game, so that one game does not stand for all. */
const SAME_GAME = 0.7;
/** A play that shows less than this that is new is not worth a reader's minute. */
const LEAST_WORTH = 0.25;

/**
 * The plays to watch, the most telling first: greedily the play that shows most of what has not been shown yet, spread
 * over games. Only plays with a second of the video; ties go to the earlier claim and play.
 *
 * @param claims - weightiest first among equals
 * @param sides  - the batches that the claims' plays come from
 * @param most   - length of the list
 */
export function filmList(claims: readonly FilmClaim[], sides: readonly PlayColumns[], most: number): FilmPick[] {
  const candidates = candidatesOf(claims, sides);
  const seen = new Map<string, number>();
  const games = new Map<string, number>();
  const picks: FilmPick[] = [];
  while (picks.length < most && candidates.size > 0) {
    let best: { key: string; candidate: Candidate; worth: number } | null = null;
    for (const [key, candidate] of candidates) {
      const shows = candidate.claims.reduce(
        (sum, { id, weight }) => sum + weight * SEEN_AGAIN ** (seen.get(id) ?? 0),
        0,
      );
      const worth = shows * SAME_GAME ** (games.get(candidate.gameId) ?? 0);
      if (best === null || worth > best.worth) best = { key, candidate, worth };
    }
    if (best === null || best.worth < LEAST_WORTH) break;
    const { key, candidate } = best;
    candidates.delete(key);
    // The reason is what the play adds, not what was shown before.
    const byNovelty = [...candidate.claims].sort(
      (a, b) => b.weight * SEEN_AGAIN ** (seen.get(b.id) ?? 0) - a.weight * SEEN_AGAIN ** (seen.get(a.id) ?? 0),
    );
    const { play, gameId, second } = candidate;
    picks.push({
      play,
      gameId,
      second,
      claimIds: byNovelty.map(({ id }) => id),
      reason: byNovelty[0]?.reason ?? '',
    });
    for (const { id } of candidate.claims) seen.set(id, (seen.get(id) ?? 0) + 1);
    games.set(gameId, (games.get(gameId) ?? 0) + 1);
  }
  return picks;
}

function candidatesOf(claims: readonly FilmClaim[], sides: readonly PlayColumns[]): Map<string, Candidate> {
  const places = new Map<string, { readonly gameId: string; readonly second: number }>();
  for (const plays of sides) {
    for (let play = 0; play < plays.count; play += 1) {
      const chart = plays.charts[plays.chartIndex[play] ?? -1];
      const second = secondOf(plays, play);
      if (chart === undefined || second === null) continue;
      places.set(`${chart.chartId} ${plays.playNumber[play] ?? -1}`, { gameId: chart.gameId, second });
    }
  }
  const candidates = new Map<string, Candidate>();
  for (const claim of claims) {
    for (const play of claim.plays) {
      const key = `${play.chartId} ${play.playNumber}`;
      const place = places.get(key);
      if (place === undefined) continue;
      const candidate = candidates.get(key) ?? { play, ...place, claims: [] };
      // One claim may stand in several lists of a report; the first mention is the weightiest.
      if (!candidate.claims.some(({ id }) => id === claim.id)) candidate.claims.push(claim);
      candidates.set(key, candidate);
    }
  }
  return candidates;
}

/** Where the line-up is charted the film starts there, since what matters most comes before the snap. */
function secondOf(plays: PlayColumns, play: number): number | null {
  const lineUp = plays.number('lineUpSecond').values[play] ?? UNKNOWN_NUMBER;
  if (lineUp !== UNKNOWN_NUMBER) return lineUp;
  const snap = plays.number('snapSecond').values[play] ?? UNKNOWN_NUMBER;
  return snap === UNKNOWN_NUMBER ? null : snap;
}
