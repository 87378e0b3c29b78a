import type { TwoConcentrations } from '../statistics/fit-two-concentrations.js';
import { concentrationGrid } from './concentration-grid.js';

/**
 * How much players differ from the field in one dimension and situation: most stay near it (`tight`), some go their own
 * way (`loose`). Concentrations are prior weights in plays.
 */
export interface Prior extends TwoConcentrations {
  /** Whether the field's players were enough to learn it from; if not, `FALLBACK_PRIOR` stands in. */
  readonly fitted: boolean;
  /** Players with at least two known plays. */
  readonly players: number;
}

/** Fewer players than this say next to nothing of how much players differ. */
export const FEWEST_PLAYERS = 5;

/**
 * Stands in where players are too few: nine in ten players differ as if the field were worth 20 plays of their own, one
 * in ten as if it were worth 2. A choice, not an estimate; it lets about 20 own plays outweigh the field.
 */
export const FALLBACK_PRIOR: TwoConcentrations = { weight: 0.1, tight: 20, loose: 2 };

// As fitTwoConcentrations: one specialist in ten players before any is seen, and the kinds a factor 4 apart.
const SPECIALISTS_BEFORE = 1;
const PLAYERS_BEFORE = 10;
const SEPARATION = 4;
const MOST_ROUNDS = 60;
const GAIN_TOLERANCE = 1e-4;

/**
 * The two-component prior of one cell, by the same penalised maximum likelihood as `fitTwoConcentrations`, but over a
 * grid of concentrations a factor of √2 apart: an archive has some four hundred cells of hundreds of players, and the
 * grid turns each into look-ups. Half a grid step moves no bound by a tenth of its interval's width.
 *
 * @param counts  - players × values, flat, integers ≥ 0; players without plays may be there
 * @param columns - values, ≥ 2
 * @param mean    - the field's share of each value, each > 0, adding up to 1
 * @see Dempster, Laird & Rubin (1977), J. R. Stat. Soc. B 39, 1–38; Mosimann (1962), Biometrika 49, 65–82
 */
export function fitPrior(counts: Int32Array, columns: number, mean: readonly number[]): Prior {
  const { concentrations, players, evidence } = concentrationGrid(counts, columns, mean);
  if (players < FEWEST_PLAYERS) return { ...FALLBACK_PRIOR, fitted: false, players };

  const size = concentrations.length;
  const single = best(evidence, size, players, null, 0, size - 1);
  let loose = Math.max(0, single - STEPS_APART);
  let tight = Math.min(size - 1, Math.max(single + 2, loose + STEPS_APART));
  let weight = SPECIALISTS_BEFORE / PLAYERS_BEFORE;
  let height = Number.NEGATIVE_INFINITY;
  const specialists = new Float64Array(players);
  const regulars = new Float64Array(players);
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    let total = 0;
    let logPosterior =
      SPECIALISTS_BEFORE * Math.log(weight) + (PLAYERS_BEFORE - SPECIALISTS_BEFORE) * Math.log1p(-weight);
    const prior = Math.log1p(-weight) - Math.log(weight);
    for (let player = 0; player < players; player += 1) {
      const ahead = (evidence[player * size + tight] ?? 0) - (evidence[player * size + loose] ?? 0) + prior;
      const odds = Math.exp(-Math.abs(ahead));
      const probability = ahead > 0 ? odds / (1 + odds) : 1 / (1 + odds);
      specialists[player] = probability;
      regulars[player] = 1 - probability;
      total += probability;
      logPosterior +=
        (evidence[player * size + tight] ?? 0) + Math.log1p(-weight) + Math.max(0, -ahead) + Math.log1p(odds);
    }
    if (logPosterior - height < GAIN_TOLERANCE) break;
    height = logPosterior;
    weight = (total + SPECIALISTS_BEFORE) / (players + PLAYERS_BEFORE);
    tight = best(evidence, size, players, regulars, Math.min(STEPS_APART, size - 1), size - 1);
    loose = best(evidence, size, players, specialists, 0, Math.max(0, tight - STEPS_APART));
  }
  return { weight, tight: concentrations[tight] ?? 1, loose: concentrations[loose] ?? 1, fitted: true, players };
}

// Four steps of √2 are the factor 4 that keeps the kinds apart.
const STEPS_APART = Math.log2(SEPARATION) * 2;

/** The grid place between two bounds at which the weighted evidence of the players is highest. */
function best(
  evidence: Float64Array,
  size: number,
  players: number,
  weights: Float64Array | null,
  from: number,
  to: number,
): number {
  const sums = new Float64Array(size);
  for (let player = 0; player < players; player += 1) {
    const weight = weights === null ? 1 : (weights[player] ?? 0);
    const row = player * size;
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
