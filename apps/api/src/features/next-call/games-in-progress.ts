import type { GameTold } from '#domain/forecast/live/game-in-progress.js';

type Snap = Readonly<Record<string, unknown>>;

/** A game as somebody asked about it: whose, its snaps so far, and what those told. */
export interface GameInProgress {
  readonly player: string;
  readonly snaps: readonly Snap[];
  readonly told: GameTold;
}

/** Questions of a few evenings' games, each under a few kilobytes. */
const MOST_KEPT = 256;

/**
 * The games that questions come from. Each question brings its whole game, which differs from the one before in the snap
 * asked about, or by one snap more: what was worked out of the rest is still true.
 */
export class GamesInProgress {
  /** Oldest first. */
  private readonly kept: GameInProgress[] = [];

  /** What is known of the first snaps of a game: of all, of all but the last, or of none. */
  of(player: string, gameSoFar: readonly Snap[]): GameInProgress | null {
    return (
      this.beginning(player, gameSoFar, gameSoFar.length) ?? this.beginning(player, gameSoFar, gameSoFar.length - 1)
    );
  }

  keep(game: GameInProgress): void {
    if (this.kept.length >= MOST_KEPT) this.kept.shift();
    this.kept.push(game);
  }

  private beginning(player: string, snaps: readonly Snap[], length: number): GameInProgress | null {
    return this.kept.findLast((game) => game.player === player && isBeginning(game.snaps, snaps, length)) ?? null;
  }
}

/** Whether some snaps are the first so many of a game. From the last on, since games differ in that rather than in the first. */
function isBeginning(kept: readonly Snap[], snaps: readonly Snap[], length: number): boolean {
  if (kept.length !== length) return false;
  for (let at = length - 1; at >= 0; at -= 1) {
    if (!isSameSnap(kept[at] ?? {}, snaps[at] ?? {})) return false;
  }
  return true;
}

/** By hand, since Node's own comparison of two values takes longer than reading the snaps anew. */
function isSameSnap(one: Snap, other: Snap): boolean {
  let names = 0;
  for (const name in one) {
    if (!Object.hasOwn(other, name) || !isSameCell(one[name], other[name])) return false;
    names += 1;
  }
  return names === Object.keys(other).length;
}

/** A snap holds texts, numbers and short lists. */
function isSameCell(one: unknown, other: unknown): boolean {
  return one === other || (typeof one === 'object' && JSON.stringify(one) === JSON.stringify(other));
}
