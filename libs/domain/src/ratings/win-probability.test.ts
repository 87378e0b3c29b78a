import fc from 'fast-check';
import { matchProbability, winProbability } from './win-probability.js';

describe('the probability to win a game', () => {
  // Glickman, The Glicko system (note), prints 0.376; 0.375988 in full, computed again in Python.
  it("gives Glickman's example", () => {
    const expected = winProbability({ rating: 1400, deviation: 80 }, { rating: 1500, deviation: 150 });
    expect(Math.abs(expected - 0.375988)).toBeLessThanOrEqual(1e-6);
  });

  // Elo (1978): 1 / (1 + 10^(-D/400)), which is what remains where nothing is uncertain.
  it.each([
    [0, 0.5],
    [50, 0.571463],
    [200, 0.759747],
    [400, 0.909091],
    [800, 0.990099],
  ])('is the logistic curve at a difference of %d where both are known', (difference, expected) => {
    const known = 1e-6;
    const own = { rating: 1500 + difference, deviation: known };
    expect(Math.abs(winProbability(own, { rating: 1500, deviation: known }) - expected)).toBeLessThanOrEqual(1e-6);
  });

  it('adds up to 1 over both, and comes nearer to a half the less is known', () => {
    const player = fc.record({
      rating: fc.double({ min: 500, max: 2500, noNaN: true }),
      deviation: fc.double({ min: 1, max: 350, noNaN: true }),
    });
    fc.assert(
      fc.property(player, player, (one, other) => {
        const probability = winProbability(one, other);
        expect(probability + winProbability(other, one)).toBeCloseTo(1, 12);
        const less = winProbability({ ...one, deviation: one.deviation + 50 }, other);
        expect(Math.abs(less - 0.5)).toBeLessThanOrEqual(Math.abs(probability - 0.5));
      }),
    );
  });
});

describe('the probability to win a match', () => {
  it.each([
    { game: 0.6, bestOf: 3, expected: 0.648 },
    { game: 0.6, bestOf: 5, expected: 0.68256 },
    { game: 0.5, bestOf: 7, expected: 0.5 },
    { game: 0.6, bestOf: 4, expected: 0.648 },
  ])('is $expected over best of $bestOf with $game a game, by hand', ({ game, bestOf, expected }) => {
    expect(matchProbability(game, bestOf)).toBeCloseTo(expected, 12);
  });

  it('starts from where the match stands', () => {
    expect(matchProbability(0.6, 3, 1, 0)).toBeCloseTo(0.84, 12);
    expect(matchProbability(0.6, 3, 1, 1)).toBeCloseTo(0.6, 12);
    expect(matchProbability(0.6, 3, 2, 1)).toBe(1);
    expect(matchProbability(0.6, 3, 0, 2)).toBe(0);
  });

  it('adds up to 1 over both players from any standing', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.nat(4),
        fc.nat(1),
        fc.nat(1),
        (game, half, own, other) => {
          const bestOf = 2 * half + 5;
          const both = matchProbability(game, bestOf, own, other) + matchProbability(1 - game, bestOf, other, own);
          expect(both).toBeCloseTo(1, 10);
        },
      ),
    );
  });

  it('refuses what is no probability and no count', () => {
    expect(() => matchProbability(1.1, 3)).toThrow(expect.objectContaining({ code: 'stats.invalid_probability' }));
    expect(() => matchProbability(0.5, 0)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});
