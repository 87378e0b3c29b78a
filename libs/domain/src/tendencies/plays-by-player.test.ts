import fc from 'fast-check';
import { playsByPlayer } from './plays-by-player.js';

const PLAYERS = 5;

describe('plays by player', () => {
  it('are the ascending places of the player, wherever the plays of a chart lie', () => {
    const play = fc.record({
      player: fc.integer({ min: -1, max: PLAYERS - 1 }),
      chart: fc.integer({ min: 0, max: 3 }),
    });
    fc.assert(
      fc.property(fc.array(play, { maxLength: 40 }), (plays) => {
        const playerOf = Int32Array.from(plays, ({ player }) => player);
        const find = playsByPlayer(
          playerOf,
          Int32Array.from(plays, ({ chart }) => chart),
          PLAYERS,
        );
        for (let player = 0; player < PLAYERS; player += 1) {
          const places = [...playerOf.keys()].filter((at) => playerOf[at] === player);
          expect([...find(player)]).toEqual(places);
        }
      }),
    );
  });

  it('are none of nobody and of a number that was never given', () => {
    const find = playsByPlayer(Int32Array.of(-1, 0), Int32Array.of(0, 0), 1);
    expect([-1, 1].map((player) => find(player).length)).toEqual([0, 0]);
  });
});
