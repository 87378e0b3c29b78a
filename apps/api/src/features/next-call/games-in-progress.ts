import type { GameTold } from '#domain/forecast/live/game-in-progress.js';

/** What the first snaps of a game told, and how many those are. */
export interface ToldSnaps {
  readonly snaps: number;
  readonly told: GameTold;
}

/** A game as it was sent, by its key, and what is known of it. */
export interface AskedGame {
  readonly key: string;
  readonly told: ToldSnaps | null;
}

/** Questions of a few evenings' games, each under a few kilobytes. */
const MOST_KEPT = 256;

/**
 * The games that questions come from. Each question brings its whole game, which differs from the one before in the snap
 * asked about, or by one snap more: what was worked out of the rest is still true.
 */
export class GamesInProgress {
  private readonly kept = new Map<string, ToldSnaps>();

  /** What is known of the first snaps of a game: of all, of all but the last, or of none. */
  of(player: string, gameSoFar: readonly object[]): AskedGame {
    const key = JSON.stringify([player, ...gameSoFar]);
    const told = this.kept.get(key) ?? this.kept.get(withoutLast(key, gameSoFar)) ?? null;
    return { key, told };
  }

  keep(key: string, snaps: number, told: GameTold): void {
    const [oldest] = this.kept.keys();
    if (this.kept.size >= MOST_KEPT && oldest !== undefined) this.kept.delete(oldest);
    this.kept.set(key, { snaps, told });
  }
}

/** The key of the same game a snap earlier, cut out of its own: writing a whole game twice is most of what a question costs here. */
function withoutLast(key: string, gameSoFar: readonly object[]): string {
  const last = gameSoFar.at(-1);
  return last === undefined ? key : `${key.slice(0, -JSON.stringify(last).length - ',]'.length)}]`;
}
