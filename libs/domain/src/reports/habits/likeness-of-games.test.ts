import { alikeHabits } from '../testing/alike-league.js';
import { likenessOfGames } from './likeness-of-games.js';

const LEAGUE = { players: 10, games: 8, snaps: 50, planted: 0 };
const likenessIn = (plan: number, seed: number): number | undefined =>
  likenessOfGames('offense', alikeHabits({ ...LEAGUE, plan, seed }).offense.asked)?.likeness;

describe('how alike the plays of a game are', () => {
  // Shares drawn around everybody's with a prior weight of A plays have an intraclass correlation of 1 / (A + 1): Mosimann
  // (1962), Biometrika 49, 65-82.
  it.each([
    { plan: 40, expected: 1 / 41 },
    { plan: 10, expected: 1 / 11 },
    { plan: Number.POSITIVE_INFINITY, expected: 0 },
  ])('is read off games with a plan of $plan plays', ({ plan, expected }) => {
    const mean = [1, 2, 3].reduce((sum, seed) => sum + (likenessIn(plan, seed) ?? 1) / 3, 0);
    expect(Math.abs(mean - expected)).toBeLessThan(0.2 * expected + 0.002);
  });

  it('counts games, and says nothing where there is no field or nobody has two games', () => {
    const { asked } = alikeHabits({ ...LEAGUE, plan: 40, seed: 4 }).offense;
    expect(likenessOfGames('offense', asked)).toMatchObject({ games: 8, fieldGames: 80 });
    expect(likenessOfGames('offense', { ...asked, field: null })).toBeNull();
    const once = alikeHabits({ ...LEAGUE, games: 1, plan: 40, seed: 4 }).offense.asked;
    expect(likenessOfGames('offense', once)).toBeNull();
  });
});
