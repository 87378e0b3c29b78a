import { ratedPeriod } from './glicko2.js';
import { ratedSeason } from './rated-season.js';
import { NEWCOMER } from './rating.js';

describe('ratings over a season', () => {
  it('rates both players of a period against each other as they stood before it', () => {
    const [winner, loser, idle] = ratedSeason(3, [[{ home: 0, away: 1, homeScore: 1 }]]);
    expect(winner).toEqual(ratedPeriod(NEWCOMER, [{ opponent: NEWCOMER, score: 1 }]));
    expect(loser).toEqual(ratedPeriod(NEWCOMER, [{ opponent: NEWCOMER, score: 0 }]));
    // Nobody is less known than a newcomer.
    expect(idle).toEqual(NEWCOMER);
  });

  it('carries a rating from period to period', () => {
    const first = { home: 0, away: 1, homeScore: 0 };
    const second = { home: 1, away: 0, homeScore: 1 };
    const [one, other] = ratedSeason(2, [[first]]);
    const [after] = ratedSeason(2, [[first], [second]]);
    expect(one).toBeDefined();
    expect(other).toBeDefined();
    if (one === undefined || other === undefined) return;
    expect(after).toEqual(ratedPeriod(one, [{ opponent: other, score: 0 }]));
  });

  it('refuses a player who is not there', () => {
    expect(() => ratedSeason(1, [[{ home: 0, away: 1, homeScore: 1 }]])).toThrow(
      expect.objectContaining({ code: 'stats.invalid_count' }),
    );
  });
});
