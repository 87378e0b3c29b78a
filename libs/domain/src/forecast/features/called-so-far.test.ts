import { calledSoFar } from './called-so-far.js';

it('counts what a player called earlier in the same game, and nothing of the play itself', () => {
  const columns = calledSoFar({
    game: Int32Array.of(0, 0, 0, 0, 0, 1),
    player: Int32Array.of(0, 1, 0, -1, 0, 0),
    rows: Int32Array.of(0, 1, 2, 3, 4, 5),
    outcome: Int32Array.of(1, 0, 0, 1, 1, 1),
  });
  expect(columns.map(({ values }) => [...values])).toEqual([
    [0, 0, 1, Number.NaN, 2, 0],
    [Number.NaN, Number.NaN, 1, Number.NaN, 0.5, Number.NaN],
  ]);
});
