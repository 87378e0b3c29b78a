import fc from 'fast-check';
import glicko2 from 'glicko2-lite';
import { ratedPeriod, type RatedGame } from './glicko2.js';
import type { Rating } from './rating.js';

const aRating = (rating: number, deviation: number, volatility = 0.06): Rating => ({ rating, deviation, volatility });
const beat = (opponent: Rating): RatedGame => ({ opponent, score: 1 });
const lostTo = (opponent: Rating): RatedGame => ({ opponent, score: 0 });

describe('a rating period', () => {
  // Glickman (2013), Example of the Glicko-2 system. The paper rounds on the way: its 1464.06 is 1464.0507 in full, as an
  // own iteration in Python and R 4.2.2's uniroot say.
  const example = ratedPeriod(aRating(1500, 200), [
    beat(aRating(1400, 30)),
    lostTo(aRating(1550, 100)),
    lostTo(aRating(1700, 300)),
  ]);

  it("gives Glickman's printed example, which was rounded on the way", () => {
    expect(Math.abs(example.rating - 1464.06)).toBeLessThanOrEqual(0.02);
    expect(Math.abs(example.deviation - 151.52)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(example.volatility - 0.05999)).toBeLessThanOrEqual(1e-5);
  });

  it('agrees with the example worked in full precision', () => {
    expect(Math.abs(example.rating - 1464.050671)).toBeLessThanOrEqual(2e-6);
    expect(Math.abs(example.deviation - 151.5165241)).toBeLessThanOrEqual(2e-6);
    expect(Math.abs(example.volatility - 0.0599959844)).toBeLessThanOrEqual(2e-6);
  });

  // Own iteration in Python and R 4.2.2's uniroot, for the two other branches of steps 5 and 6.
  it('leaves a player who did not play as strong and less certain', () => {
    const idle = ratedPeriod(aRating(1500, 200), []);
    expect(idle.rating).toBe(1500);
    expect(Math.abs(idle.deviation - 200.2714167)).toBeLessThanOrEqual(1e-5);
  });

  it('lets volatility rise after a streak of upsets', () => {
    const streak = ratedPeriod(aRating(1500, 50), new Array<RatedGame>(6).fill(beat(aRating(1700, 50))));
    expect(Math.abs(streak.rating - 1561.657496)).toBeLessThanOrEqual(1e-5);
    expect(Math.abs(streak.deviation - 48.859768)).toBeLessThanOrEqual(1e-5);
    expect(Math.abs(streak.volatility - 0.0602161)).toBeLessThanOrEqual(1e-5);
  });

  const anyRating = fc.record({
    rating: fc.double({ min: 800, max: 2200, noNaN: true }),
    deviation: fc.double({ min: 30, max: 350, noNaN: true }),
    volatility: fc.double({ min: 0.03, max: 0.1, noNaN: true }),
  });
  const anyGames = fc.array(fc.record({ opponent: anyRating, score: fc.constantFrom(0, 0.5, 1) }), {
    minLength: 1,
    maxLength: 12,
  });

  it('agrees with another implementation on any period', () => {
    fc.assert(
      fc.property(anyRating, anyGames, (before, games) => {
        const after = ratedPeriod(before, games);
        const other = glicko2(
          before.rating,
          before.deviation,
          before.volatility,
          games.map(({ opponent, score }): [number, number, number] => [opponent.rating, opponent.deviation, score]),
          { tau: 0.5, rating: 1500 },
        );
        // Both stop their search for the volatility at 1e-6.
        expect(Math.abs(after.rating - other.rating)).toBeLessThanOrEqual(1e-3);
        expect(Math.abs(after.deviation - other.rd)).toBeLessThanOrEqual(1e-3);
        expect(Math.abs(after.volatility - other.vol)).toBeLessThanOrEqual(1e-5);
      }),
    );
  });

  it('does not depend on the order of its games, and mirrors when every score does around equals', () => {
    fc.assert(
      fc.property(anyRating, anyGames, (before, games) => {
        const after = ratedPeriod(before, games);
        expect(ratedPeriod(before, [...games].reverse()).rating).toBeCloseTo(after.rating, 6);
        const mirrored = ratedPeriod(
          { ...before, rating: 3000 - before.rating },
          games.map(({ opponent, score }) => ({
            opponent: { ...opponent, rating: 3000 - opponent.rating },
            score: 1 - score,
          })),
        );
        expect(mirrored.rating).toBeCloseTo(3000 - after.rating, 6);
      }),
    );
  });

  it('refuses what is no rating and no score', () => {
    const fair = aRating(1500, 100);
    expect(() => ratedPeriod(aRating(Number.NaN, 100), [])).toThrow(
      expect.objectContaining({ code: 'stats.invalid_number' }),
    );
    expect(() => ratedPeriod(aRating(1500, 0), [])).toThrow(expect.objectContaining({ code: 'stats.invalid_number' }));
    expect(() => ratedPeriod(aRating(1500, 100, 1), [])).toThrow(
      expect.objectContaining({ code: 'stats.invalid_probability' }),
    );
    expect(() => ratedPeriod(fair, [{ opponent: fair, score: 2 }])).toThrow(
      expect.objectContaining({ code: 'stats.invalid_probability' }),
    );
  });
});
