import { fitOutcome } from './fitted-outcome.js';
import { playerEffects } from './player-effects.js';
import { situationMeans } from './coded-plays.js';
import type { CallOption } from './options.js';
import { PayoffTable } from './payoffs.js';
import { effectsOfBoth } from './situation-effects.js';
import { answerLeague, USUAL_LEAGUE } from './testing/answer-league.js';
import { guaranteesOver } from './testing/mix-league.js';
import { callRegretOver, situationRegretOver } from './testing/situation-regret.js';
import { regretOver } from './testing/regret.js';

// Small sizes of what `npm run bench -- calibration` prints: see docs/reference/calibration.md. Leagues of eight calls,
// eight answers and sixteen players; true spread between the answers to a call 0.2 points, a play's spread 1.3.

const seeds = (from: number, count: number): number[] => Array.from({ length: count }, (_, place) => from + place);

describe('recommended answers', () => {
  it('cost at most 60 % of what raw means cost at ten plays a cell, and cover the truth', () => {
    const regret = regretOver(seeds(2_000, 40), { ...USUAL_LEAGUE, spread: 0.2, playsACell: 10 });
    // 0.57 at a large size; two Monte Carlo standard errors of 40 leagues are 0.13.
    expect(regret.model / regret.raw).toBeLessThanOrEqual(0.6 + 2 * regret.ratioError);
    expect(regret.model).toBeLessThan(regret.raw);
    expect(regret.covered).toBeGreaterThan(0.86);
    expect(regret.covered).toBeLessThan(0.97);
  });

  it('cost at most 85 % at forty', () => {
    const regret = regretOver(seeds(3_000, 20), { ...USUAL_LEAGUE, spread: 0.2, playsACell: 40 });
    expect(regret.model / regret.raw).toBeLessThanOrEqual(0.85);
  });
});

describe('answers by yards to go', () => {
  const shares = [0.6, 0.15, 0.25];
  const league = { ...USUAL_LEAGUE, spread: 0.2, playsACell: 40 };

  it('cost less where answers differ from group to group', () => {
    const regret = situationRegretOver(seeds(5_000, 20), { ...league, bySituation: { shares, spread: 0.3 } });
    expect(regret.told).toBeLessThan(0.6 * regret.everywhere);
    expect(regret.told / regret.raw).toBeLessThanOrEqual(0.85);
  });

  it('are left alone where they do not', () => {
    const regret = situationRegretOver(seeds(6_000, 20), { ...league, bySituation: { shares, spread: 0 } });
    expect(regret.claimed).toBeLessThanOrEqual(4);
    expect(regret.told).toBeLessThanOrEqual(1.05 * regret.everywhere);
  });
});

describe('our calls by yards to go', () => {
  const shares = [0.6, 0.15, 0.25];
  const league = { ...USUAL_LEAGUE, spread: 0.2, playsACell: 40 };

  it('cost less where calls differ from group to group', () => {
    const bySituation = { shares, spread: 0.1, ofCalls: 0.2 };
    const { told, everywhere, claimed } = callRegretOver(seeds(7_000, 20), { ...league, bySituation });
    expect(told).toBeLessThan(0.7 * everywhere);
    expect(claimed).toBeGreaterThan(10);
  });

  it('are left alone where only answers do', () => {
    const { told, everywhere, claimed } = callRegretOver(seeds(8_000, 20), {
      ...league,
      bySituation: { shares, spread: 0.2 },
    });
    expect(claimed).toBeLessThanOrEqual(4);
    expect(told).toBeLessThanOrEqual(1.05 * everywhere);
  });

  it('make another row of the same game the best', () => {
    const bySituation = { shares, spread: 0, ofCalls: 0.3 };
    const { coded, outcome } = answerLeague({ ...league, seed: 7_001, bySituation });
    const fitted = fitOutcome(coded, outcome);
    if (fitted === null) throw new Error('the league could not be fitted');
    const table = new PayoffTable(fitted, 1, effectsOfBoth(fitted, outcome, coded.situation, shares.length));
    const option = (level: number): CallOption => ({
      ...{ key: `${level}`, label: `${level}`, menu: null, byItsLike: false },
      levels: [{ level, weight: 1 }],
    });
    const options = Array.from({ length: 8 }, (_, level) => option(level));
    const best = [0, 1, 2].map((group) => {
      const here = shares.map((_, at) => (at === group ? 1 : 0));
      const { payoffs } = table.game('defense', options, options, new Array<number>(8).fill(1), here);
      const means = payoffs.map((row) => row.reduce((sum, gain) => sum + gain, 0));
      return means.indexOf(Math.max(...means));
    });
    expect(new Set(best).size).toBeGreaterThan(1);
  });
});

describe('the guarantee of a mix', () => {
  it('holds in at least 80 % of leagues', () => {
    const { held, leagues } = guaranteesOver(seeds(4_000, 30), { ...USUAL_LEAGUE, spread: 0.2, playsACell: 20 });
    expect(held / leagues).toBeGreaterThanOrEqual(0.8);
  });
});

describe('players taken out first', () => {
  it('come out close to what the equations solved together say', () => {
    const { coded, outcome } = answerLeague({ ...USUAL_LEAGUE, seed: 91, spread: 0.2, playsACell: 120 });
    const together = fitOutcome(coded, outcome);
    expect(together?.together).toBe(true);
    const means = situationMeans(coded, outcome);
    const [counts, sums] = [new Float64Array(64), new Float64Array(64)];
    outcome.forEach((value, play) => {
      const cell = (coded.call[play] ?? 0) * coded.answers + (coded.answer[play] ?? 0);
      counts[cell] = (counts[cell] ?? 0) + 1;
      sums[cell] = (sums[cell] ?? 0) + value - means.overall;
    });
    const apart = playerEffects(coded, outcome, means, counts, sums);
    for (let player = 0; player < coded.players; player += 1) {
      // A tenth of a point is less than half of the posterior standard deviation of a player here.
      expect(Math.abs((apart.offense[player] ?? NaN) - (together?.offenseEffect(player) ?? NaN))).toBeLessThan(0.1);
      expect(Math.abs((apart.defense[player] ?? NaN) - (together?.defenseEffect(player) ?? NaN))).toBeLessThan(0.1);
    }
  });
});
