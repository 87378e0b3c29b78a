import type { TwoConcentrations } from '../statistics/fit-two-concentrations.js';

// As fitTwoConcentrations: one specialist in ten players before any is seen, and the kinds a factor 4 apart.
const SPECIALISTS_BEFORE = 1;
const PLAYERS_BEFORE = 10;
/** Four steps of √2 are the factor 4. */
const STEPS_APART = 4;
const MOST_ROUNDS = 100;
/** A thousandth more or fewer specialists moves no bound that anybody reads. */
const WEIGHT_TOLERANCE = 1e-3;
/** Both concentrations move by at most this many steps a round; more rounds are cheaper than long searches. */
const REACH = 3;

/**
 * The two concentrations of a grid, and how common the loose one is, by expectation and maximisation: the same
 * penalised likelihood as `fitTwoConcentrations`, where an archive's thousands of player-situations become look-ups.
 * Half a step of √2 changes an interval's width by less than a tenth. Stops when no concentration moves and the weight
 * by less than 0.001, or after 100 rounds, each of which only improves the likelihood.
 *
 * @param evidence - groups × concentrations, flat: logarithm of each group's probability
 * @param grid     - ascending, each √2 times the one before, at least one
 * @see Dempster, Laird & Rubin (1977), J. R. Stat. Soc. B 39, 1–38
 */
export function fitTwoOnGrid(evidence: Float64Array, grid: readonly number[]): TwoConcentrations {
  const size = grid.length;
  const groups = evidence.length / size;
  const specialists = new Float64Array(groups);
  const everybody = new Float64Array(groups).fill(1);
  const regulars = new Float64Array(groups);
  const lowestTight = Math.min(STEPS_APART, size - 1);
  const single = bestPlace(evidence, size, everybody, 0, size - 1);
  let tight = Math.max(lowestTight, Math.min(size - 1, single + 2));
  let loose = Math.max(0, tight - STEPS_APART);
  let weight = SPECIALISTS_BEFORE / PLAYERS_BEFORE;
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const before = Math.log1p(-weight) - Math.log(weight);
    let total = 0;
    for (let group = 0; group < groups; group += 1) {
      const ahead = before + (evidence[group * size + tight] ?? 0) - (evidence[group * size + loose] ?? 0);
      const probability = 1 / (1 + Math.exp(ahead));
      specialists[group] = probability;
      regulars[group] = 1 - probability;
      total += probability;
    }
    const last = { weight, tight, loose };
    weight = (total + SPECIALISTS_BEFORE) / (groups + PLAYERS_BEFORE);
    tight = bestPlace(
      evidence,
      size,
      regulars,
      Math.max(lowestTight, tight - REACH),
      Math.min(size - 1, tight + REACH),
    );
    const highestLoose = Math.max(0, tight - STEPS_APART);
    loose = Math.min(loose, highestLoose);
    loose = bestPlace(evidence, size, specialists, Math.max(0, loose - REACH), Math.min(highestLoose, loose + REACH));
    const moved = tight !== last.tight || loose !== last.loose;
    if (!moved && Math.abs(weight - last.weight) < WEIGHT_TOLERANCE) break;
  }
  return { weight, tight: grid[tight] ?? 1, loose: grid[loose] ?? 1 };
}

/** The grid place, between two bounds inclusive, at which the weighted evidence of the groups is highest. */
function bestPlace(evidence: Float64Array, size: number, weights: Float64Array, from: number, to: number): number {
  const sums = new Float64Array(size);
  for (let group = 0; group < weights.length; group += 1) {
    const weight = weights[group] ?? 0;
    const row = group * size;
    for (let place = from; place <= to; place += 1) {
      sums[place] = (sums[place] ?? 0) + weight * (evidence[row + place] ?? 0);
    }
  }
  let highest = from;
  for (let place = from + 1; place <= to; place += 1) {
    if ((sums[place] ?? 0) > (sums[highest] ?? 0)) highest = place;
  }
  return highest;
}
