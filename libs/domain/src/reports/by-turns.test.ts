import { byTurns } from './by-turns.js';

it('takes the first of each list before the second of any, and goes on where one has ended', () => {
  expect(byTurns([['a1', 'a2', 'a3'], [], ['b1', 'b2']])).toEqual(['a1', 'b1', 'a2', 'b2', 'a3']);
  expect(byTurns([])).toEqual([]);
});
