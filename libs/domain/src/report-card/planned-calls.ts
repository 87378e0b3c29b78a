import type { Side } from '../tendencies/tendency-plays.js';
import { termAt } from './judge-answers.js';
import { opponentHasBall, type MatchPlays } from './match-plays.js';
import type { PlannedAgainstCalled, PlannedCount, PlannedSide } from './report-card-shape.js';
import { plannedWords } from './words.js';

/** What we meant to call on a snap, its terms canonical; what was left open is null. */
export interface PlannedCall {
  readonly gameId: string;
  readonly orderInGame: number;
  /** Ours. */
  readonly side: Side;
  readonly concept: number | null;
  readonly callFamily: number | null;
  readonly front: number | null;
  readonly coverage: number | null;
  readonly pressure: number | null;
}

const PARTS: Readonly<Record<Side, readonly ('concept' | 'callFamily' | 'front' | 'coverage' | 'pressure')[]>> = {
  offense: ['concept', 'callFamily'],
  defense: ['front', 'coverage', 'pressure'],
};

/**
 * Our own call log against what was charted, snap by snap: as meant where every part that was both meant and seen is the
 * same, otherwise where one differs. Null where the log says nothing of these games.
 */
export function plannedAgainstCalled(match: MatchPlays, planned: readonly PlannedCall[]): PlannedAgainstCalled | null {
  const { facts, vocabulary } = match;
  const callOf = new Map(planned.map((call) => [keyOf(call.gameId, call.orderInGame, call.side), call]));
  const readers = { offense: readersOf(match, 'offense'), defense: readersOf(match, 'defense') };
  const snaps: { side: Side; play: number; same: boolean | null }[] = [];
  for (const play of match.all) {
    if (facts.counts[play] !== 1) continue;
    const side = opponentHasBall(match, play) ? 'defense' : 'offense';
    const gameId = facts.plays.charts[facts.plays.chartIndex[play] ?? -1]?.gameId ?? '';
    const call = callOf.get(keyOf(gameId, facts.plays.orderInGame[play] ?? -1, side));
    if (call === undefined) continue;
    const compared = readers[side].flatMap(({ part, read }) => {
      const [meant, seen] = [call[part], read(play)];
      return meant === null || seen === null ? [] : [vocabulary.isWithin(seen, meant)];
    });
    snaps.push({ side, play, same: compared.length === 0 ? null : compared.every(Boolean) });
  }
  if (snaps.length === 0) return null;
  const count = (side: Side, same: boolean): PlannedCount => {
    const places = snaps.filter((snap) => snap.side === side && snap.same === same).map(({ play }) => play);
    const known = places.filter((play) => (facts.success[play] ?? -1) >= 0);
    const ours = side === 'offense' ? 1 : 0;
    return {
      plays: places.length,
      successes: known.filter((play) => facts.success[play] === ours).length,
      trials: known.length,
    };
  };
  const sides = (['offense', 'defense'] as const).flatMap((side): PlannedSide[] => {
    const ours = snaps.filter((snap) => snap.side === side);
    if (ours.length === 0) return [];
    const of = {
      side,
      asMeant: count(side, true),
      otherwise: count(side, false),
      notSeen: ours.filter(({ same }) => same === null).length,
    };
    return [{ ...of, words: plannedWords(of) }];
  });
  return { snaps: snaps.length, sides };
}

function readersOf(
  match: MatchPlays,
  side: Side,
): { readonly part: (typeof PARTS)[Side][number]; readonly read: (play: number) => number | null }[] {
  return PARTS[side].map((part) => ({ part, read: termAt(match, part) }));
}

function keyOf(gameId: string, order: number, side: Side): string {
  return `${gameId} ${order} ${side}`;
}
