import { seededRandom } from '../../statistics/seeded-random.js';
import { fitGameSpread, followGame } from './game-so-far.js';

const PLAYS_OF_A_GAME = 30;

/** Games of one player each, whose log odds of class 1 are off the forecast of one half by a normal deviation. */
function games(count: number, deviation: number) {
  const random = seededRandom(11);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const plays = count * PLAYS_OF_A_GAME;
  const off = Array.from({ length: count }, () => deviation * normal());
  const game = Int32Array.from({ length: plays }, (_, play) => Math.floor(play / PLAYS_OF_A_GAME));
  const outcome = Int32Array.from(game, (at) => (random() < 1 / (1 + Math.exp(-(off[at] ?? 0))) ? 1 : 0));
  const part = { probabilities: new Float64Array(plays * 2).fill(0.5), rows: Int32Array.from(game.keys()) };
  return { part, plays: { game, outcome, player: new Int32Array(plays), classes: 2 } };
}

function lossOf(probabilities: Float64Array, outcome: Int32Array): number {
  return outcome.reduce((sum, seen, play) => sum - Math.log(probabilities[play * 2 + seen] ?? 0), 0) / outcome.length;
}

describe('following a game', () => {
  const few = {
    game: Int32Array.of(0, 0, 0, 0, 1),
    player: Int32Array.of(0, 0, 1, -1, 0),
    outcome: Int32Array.of(1, 1, 0, 1, 0),
    classes: 2,
  };
  const halves = { probabilities: new Float64Array(10).fill(0.5), rows: Int32Array.of(0, 1, 2, 3, 4) };

  it('moves the log odds by excess over information and prior, for the same player in the same game alone', () => {
    const moved = followGame(halves, few, 0.5);
    // One play of class 1 where one half was forecast: excess 0.5, information 0.25; log odds have twice the variance.
    const logOdds = 0.5 / (0.25 + 1 / (2 * 0.5));
    expect(Math.log((moved[3] ?? 0) / (moved[2] ?? 1))).toBeCloseTo(logOdds, 12);
    for (const play of [0, 2, 3, 4]) expect([...moved.subarray(play * 2, play * 2 + 2)]).toEqual([0.5, 0.5]);
  });

  it('looks at no play that comes later', () => {
    const before = followGame(halves, few, 0.5);
    const after = followGame(halves, { ...few, outcome: Int32Array.of(1, 0, 1, 0, 1) }, 0.5);
    expect([...after.subarray(0, 4)]).toEqual([...before.subarray(0, 4)]);
  });

  it('gives probabilities for many classes, and leaves a single one alone', () => {
    const outcome = Int32Array.of(2, 2, 0);
    const plays = { game: new Int32Array(3), player: new Int32Array(3), outcome };
    const rows = Int32Array.of(0, 1, 2);
    const thirds = followGame({ probabilities: new Float64Array(9).fill(1 / 3), rows }, { ...plays, classes: 3 }, 0.1);
    const last = [...thirds.subarray(6, 9)];
    expect(last.reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 12);
    expect(last[2]).toBeGreaterThan(last[0] ?? 1);
    expect(last[1]).toBeCloseTo(last[0] ?? 1, 12);
    const one = followGame({ probabilities: new Float64Array(3).fill(1), rows }, { ...plays, classes: 1 }, 0.1);
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
    const gain = Math.LN2 - lossOf(followGame(planned.part, planned.plays, withPlans), planned.plays.outcome);
    expect(gain).toBeGreaterThan(0.01);
    const cost = lossOf(followGame(calm.part, calm.plays, without), calm.plays.outcome) - Math.LN2;
    expect(cost).toBeLessThan(0.001);
  });

  it('holds to what is common where nothing was judged', () => {
    expect(fitGameSpread([], few)).toBe(0.03);
  });
});
