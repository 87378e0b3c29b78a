import fc from 'fast-check';
import type { GameTold } from '#domain/forecast/live/game-in-progress.js';
import { GamesInProgress } from './games-in-progress.js';

const aSnap = fc.dictionary(
  fc.string({ maxLength: 6 }),
  fc.oneof(fc.integer(), fc.string({ maxLength: 8 }), fc.array(fc.string({ maxLength: 3 }), { maxLength: 2 })),
);
const NOTHING: GameTold = {
  earlier: { plays: 0, last: new Map() },
  known: 0,
  counts: new Float64Array(2),
  expected: new Float64Array(2),
};

describe('games in progress', () => {
  it('are known again by all of their snaps, and a snap later', () => {
    fc.assert(
      fc.property(fc.array(aSnap, { maxLength: 5 }), aSnap, fc.string(), (snaps, next, player) => {
        const games = new GamesInProgress();
        const game = { player, snaps, told: NOTHING };
        games.keep(game);
        expect(games.of(player, structuredClone(snaps))).toBe(game);
        expect(games.of(player, [...structuredClone(snaps), next])).toBe(game);
      }),
    );
  });

  it('are known by all of their snaps sooner than by all but the last', () => {
    const snaps = [{ down: 1 }, { down: 2 }];
    const games = new GamesInProgress();
    const whole = { player: 'one', snaps, told: NOTHING };
    games.keep(whole);
    games.keep({ player: 'one', snaps: snaps.slice(0, 1), told: NOTHING });
    expect(games.of('one', snaps)).toBe(whole);
  });

  it('are taken for no other game, nor for another player’s', () => {
    fc.assert(
      fc.property(fc.array(aSnap, { maxLength: 4 }), fc.array(aSnap, { maxLength: 5 }), (snaps, other) => {
        const games = new GamesInProgress();
        games.keep({ player: 'one', snaps, told: NOTHING });
        const same = [other, other.slice(0, -1)].some((part) => sorted(part) === sorted(snaps));
        expect(games.of('one', other) !== null).toBe(same);
        expect(games.of('two', snaps)).toBeNull();
      }),
    );
  });

  it('are told apart by any one cell', () => {
    fc.assert(
      fc.property(fc.array(aSnap, { minLength: 1, maxLength: 4 }), fc.nat(), fc.string(), (snaps, at, word) => {
        const games = new GamesInProgress();
        games.keep({ player: 'one', snaps, told: NOTHING });
        const changed = snaps.map((snap, place) => (place === at % snaps.length ? { ...snap, [word]: null } : snap));
        expect(games.of('one', changed)).toBeNull();
      }),
    );
  });

  it('of which the oldest are left go, however many more come', () => {
    const games = new GamesInProgress();
    for (let game = 0; game < 1000; game += 1) games.keep({ player: 'one', snaps: [{ down: game }], told: NOTHING });
    expect(games.of('one', [{ down: 0 }])).toBeNull();
    expect(games.of('one', [{ down: 999 }])).not.toBeNull();
  });
});

/** As text, whatever order its fields are in: a game is the same game all the same. */
function sorted(snaps: readonly Readonly<Record<string, unknown>>[]): string {
  return JSON.stringify(snaps.map((snap) => Object.entries(snap).sort(([a], [b]) => (a < b ? -1 : 1))));
}
