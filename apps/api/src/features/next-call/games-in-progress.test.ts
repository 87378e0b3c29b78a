import fc from 'fast-check';
import type { GameTold } from '#domain/forecast/live/game-in-progress.js';
import { GamesInProgress } from './games-in-progress.js';

const aSnap = fc.dictionary(
  fc.string({ maxLength: 6 }),
  fc.oneof(fc.integer(), fc.string({ maxLength: 8 }), fc.constant([])),
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
      fc.property(fc.array(aSnap, { maxLength: 5 }), aSnap, fc.string(), (game, next, player) => {
        const games = new GamesInProgress();
        games.keep(games.of(player, game).key, game.length, NOTHING);
        expect(games.of(player, structuredClone(game)).told).toEqual({ snaps: game.length, told: NOTHING });
        expect(games.of(player, [...game, next]).told).toEqual({ snaps: game.length, told: NOTHING });
      }),
    );
  });

  it('are taken for no other game, nor for another player’s', () => {
    fc.assert(
      fc.property(fc.array(aSnap, { maxLength: 4 }), fc.array(aSnap, { maxLength: 5 }), (game, other) => {
        const games = new GamesInProgress();
        games.keep(games.of('one', game).key, game.length, NOTHING);
        const same = [other, other.slice(0, -1)].some((part) => JSON.stringify(part) === JSON.stringify(game));
        expect(games.of('one', other).told !== null).toBe(same);
        expect(games.of('two', game).told).toBeNull();
      }),
    );
  });
});
