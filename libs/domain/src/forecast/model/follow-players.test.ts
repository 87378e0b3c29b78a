import { seededRandom } from '../../statistics/seeded-random.js';
import { fitGameSpread, followPlayers } from './follow-players.js';

const PLAYS_OF_A_GAME = 30;

/**
 * Games of thirty plays, whose log odds of class 1 are off the forecast of one half by a normal deviation: each by one of
 * its own, or all games of a player by the same.
 */
function games(count: number, deviation: number, gamesOfAPlayer = 1) {
  const random = seededRandom(11);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const plays = count * PLAYS_OF_A_GAME;
  const game = Int32Array.from({ length: plays }, (_, play) => Math.floor(play / PLAYS_OF_A_GAME));
  const player = game.map((at) => Math.floor(at / gamesOfAPlayer));
  const off = Array.from({ length: count }, () => deviation * normal());
  const outcome = Int32Array.from(player, (at) => (random() < 1 / (1 + Math.exp(-(off[at] ?? 0))) ? 1 : 0));
  const part = { probabilities: new Float64Array(plays * 2).fill(0.5), rows: Int32Array.from(game.keys()) };
  return { part, plays: { game, outcome, player, classes: 2 } };
}

function lossOf(probabilities: Float64Array, outcome: Int32Array): number {
  return outcome.reduce((sum, seen, play) => sum - Math.log(probabilities[play * 2 + seen] ?? 0), 0) / outcome.length;
}

/** Of class 1. */
function logOddsOf(probabilities: Float64Array, play: number): number {
  return Math.log((probabilities[play * 2 + 1] ?? 0) / (probabilities[play * 2] ?? 0));
}

describe('following players', () => {
  const few = {
    game: Int32Array.of(0, 0, 0, 0, 1),
    player: Int32Array.of(0, 0, 1, -1, 0),
    outcome: Int32Array.of(1, 1, 0, 1, 0),
    classes: 2,
  };
  const halves = { probabilities: new Float64Array(10).fill(0.5), rows: Int32Array.of(0, 1, 2, 3, 4) };

  it('moves the log odds by excess over information and prior, for the same player alone', () => {
    const moved = followPlayers(halves, few, 0.5);
    // One play of class 1 where one half was forecast: excess 0.5, information 0.25. Log odds have twice the variance,
    // which is that of games and half of it for what the player keeps.
    const logOdds = 0.5 / (0.25 + 1 / (2 * 0.75));
    expect(logOddsOf(moved, 1)).toBeCloseTo(logOdds, 12);
    for (const play of [0, 2, 3]) expect([...moved.subarray(play * 2, play * 2 + 2)]).toEqual([0.5, 0.5]);
  });

  it('keeps of a game what a Kalman filter does', () => {
    const moved = followPlayers(halves, few, 0.5);
    // Two plays of class 1: off by 1 / 0.5 of log odds, an observation with the variance 1 / 0.5 of luck and 1 of the game's
    // plan, of an offset whose own variance was 0.5.
    const gain = 0.5 / (0.5 + 1 + 1 / 0.5);
    expect(logOddsOf(moved, 4)).toBeCloseTo(gain * (1 / 0.5), 12);
  });

  it('looks at no play that comes later', () => {
    const before = followPlayers(halves, few, 0.5);
    const after = followPlayers(halves, { ...few, outcome: Int32Array.of(1, 0, 1, 0, 0) }, 0.5);
    expect([...after.subarray(0, 4)]).toEqual([...before.subarray(0, 4)]);
    const lastOther = followPlayers(halves, { ...few, outcome: Int32Array.of(1, 1, 0, 1, 1) }, 0.5);
    expect([...lastOther]).toEqual([...before]);
  });

  it('gives probabilities for many classes, and leaves a single one alone', () => {
    const outcome = Int32Array.of(2, 2, 0);
    const plays = { game: new Int32Array(3), player: new Int32Array(3), outcome };
    const rows = Int32Array.of(0, 1, 2);
    const thirds = followPlayers(
      { probabilities: new Float64Array(9).fill(1 / 3), rows },
      { ...plays, classes: 3 },
      0.1,
    );
    const last = [...thirds.subarray(6, 9)];
    expect(last.reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 12);
    expect(last[2]).toBeGreaterThan(last[0] ?? 1);
    expect(last[1]).toBeCloseTo(last[0] ?? 1, 12);
    const one = followPlayers({ probabilities: new Float64Array(3).fill(1), rows }, { ...plays, classes: 1 }, 0.1);
    expect([...one]).toEqual([1, 1, 1]);
  });

  it('forecasts better where games have plans of their own, and costs next to nothing where they have none', () => {
    const planned = games(200, 0.6);
    const calm = games(200, 0);
    const withPlans = fitGameSpread([planned.part], planned.plays);
    const without = fitGameSpread([calm.part], calm.plays);
    // The log odds' variance of 0.36 is twice that of a class's score.
    expect(withPlans).toBeGreaterThan(0.1);
    expect(withPlans).toBeLessThan(0.3);
    // Held to 0.03 where nothing was judged; 6,000 plays without plans draw it to less than half.
    expect(without).toBeLessThan(0.015);
    const gain = Math.LN2 - lossOf(followPlayers(planned.part, planned.plays, withPlans), planned.plays.outcome);
    expect(gain).toBeGreaterThan(0.01);
    const cost = lossOf(followPlayers(calm.part, calm.plays, without), calm.plays.outcome) - Math.LN2;
    expect(cost).toBeLessThan(0.001);
  });

  it('forecasts the better the more games a player is followed over', () => {
    const kept = games(400, 0.4, 10);
    const spread = fitGameSpread([kept.part], kept.plays);
    const moved = followPlayers(kept.part, kept.plays, spread);
    const gainOf = (nth: number): number => {
      const plays = [...kept.part.rows].filter((play) => (kept.plays.game[play] ?? 0) % 10 === nth);
      const loss = plays.reduce(
        (sum, play) => sum - Math.log(moved[play * 2 + (kept.plays.outcome[play] ?? 0)] ?? 0),
        0,
      );
      return Math.LN2 - loss / plays.length;
    };
    expect(gainOf(9)).toBeGreaterThan(gainOf(0) + 0.005);
    // An offset of 0.4 that is known takes 0.02 off: 0.4 ** 2 / 8.
    expect(gainOf(9)).toBeLessThan(0.03);
  });

  it('holds to what is common where nothing was judged', () => {
    expect(fitGameSpread([], few)).toBe(0.03);
  });
});
