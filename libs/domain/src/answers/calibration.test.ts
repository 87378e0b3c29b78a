import { fitOutcome } from './fitted-outcome.js';
import { playerEffects } from './player-effects.js';
import { situationMeans } from './coded-plays.js';
import { answerLeague, USUAL_LEAGUE } from './testing/answer-league.js';
import { guaranteesOver } from './testing/mix-league.js';
import { situationRegretOver } from './testing/situation-regret.js';
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
