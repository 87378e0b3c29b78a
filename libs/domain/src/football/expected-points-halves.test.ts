import { halves } from './expected-points-halves.js';
import { chartOf } from './testing/chart-of.js';

it('numbers halves and overtime periods, and leaves an unknown quarter unknown', () => {
  const plays = chartOf([{ quarter: 1 }, { quarter: 2 }, { quarter: 3 }, { quarter: 4 }, { quarter: 5 }, {}]);
  expect([...halves(plays)]).toEqual([1, 1, 2, 2, 3, 0]);
});
