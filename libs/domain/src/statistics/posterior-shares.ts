import { bracketedRoot } from './bracketed-root.js';
import { dirichletMultinomialEvidence } from './dirichlet-multinomial-evidence.js';
import type { ShareEstimate } from './dirichlet-multinomial-posterior.js';
import { betaCdf, betaQuantile } from './distributions.js';
import { elementAt } from './element-at.js';
import type { TwoConcentrations } from './fit-two-concentrations.js';
import {
  assertNonNegative,
  assertOpenShares,
  assertOpenUnit,
  assertPositive,
  assertSameLength,
  assertUnit,
} from './guards.js';

export interface SharePrior extends TwoConcentrations {
  /** The field's share of each category: each > 0, adding up to 1. */
  readonly mean: readonly number[];
}

export interface SharesPosterior {
  /** One estimate per category, in order; the shares add up to 1. */
  readonly shares: readonly ShareEstimate[];
  /** Probability, in [0, 1], that this player belongs to the loose component. */
  readonly specialist: number;
}

// Of a share: a millionth of a percentage point.
const SHARE_TOLERANCE = 1e-10;

/**
 * A player's shares under a prior of two kinds of player. The player's own counts say which kind is
 * likelier, by the evidence of all categories together; each share and its interval come from the
 * mixture of the two posteriors in that proportion. The mixture's quantiles have no closed form and are
 * found between those of its parts.
 *
 * @param counts     - the player's plays per category, ≥ 0; effective counts of weighted plays may be fractions
 * @param prior      - mean, and weight and concentrations as {@link TwoConcentrations} states them
 * @param confidence - probability in (0, 1) of each interval on its own, not of all together
 * @returns shares with equal-tailed intervals, and the probability of being a specialist
 * @throws DomainError `stats.invalid_number`, `stats.invalid_probability`, `stats.invalid_shape`
 * @see Gelman et al. (2013), Bayesian Data Analysis, 3rd ed., sections 3.4 and 7.4
 */
export function posteriorShares(counts: readonly number[], prior: SharePrior, confidence: number): SharesPosterior {
  const { mean, weight, tight, loose } = prior;
  assertOpenShares('mean', mean);
  assertSameLength('counts', counts, mean.length);
  for (const count of counts) assertNonNegative('counts', count);
  assertUnit('weight', weight);
  assertPositive('tight', tight);
  assertPositive('loose', loose);
  assertOpenUnit('confidence', confidence);

  const size = counts.reduce((sum, count) => sum + count, 0);
  const advantage =
    dirichletMultinomialEvidence(counts, mean, loose) - dirichletMultinomialEvidence(counts, mean, tight);
  const specialist = specialistProbability(weight, advantage);
  const tail = (1 - confidence) / 2;

  const shares = counts.map((count, category) => {
    const parts = [
      { weight: specialist, concentration: loose },
      { weight: 1 - specialist, concentration: tight },
    ].map(({ weight: part, concentration }) => {
      const alpha = count + concentration * elementAt(mean, category);
      const total = size + concentration;
      return { weight: part, alpha, beta: total - alpha, share: alpha / total };
    });
    return {
      share: parts.reduce((sum, part) => sum + part.weight * part.share, 0),
      interval: { lower: mixtureQuantile(tail, parts), upper: mixtureQuantile(1 - tail, parts) },
    };
  });
  return { shares, specialist };
}

interface BetaPart {
  readonly weight: number;
  readonly alpha: number;
  readonly beta: number;
}

/**
 * Probability that a group is of the loose kind, by Bayes's rule.
 *
 * @param weight    - before its counts, in [0, 1]
 * @param advantage - by how much the counts are likelier from the loose kind, as a logarithm
 */
export function specialistProbability(weight: number, advantage: number): number {
  if (weight === 0 || weight === 1) return weight;
  return 1 / (1 + Math.exp(Math.log1p(-weight) - Math.log(weight) - advantage));
}

function mixtureQuantile(probability: number, parts: readonly BetaPart[]): number {
  // A part without weight must not widen the bracket.
  const heard = parts.filter((part) => part.weight > 0);
  const quantiles = heard.map((part) => betaQuantile(probability, part.alpha, part.beta));
  const [low, high] = [Math.min(...quantiles), Math.max(...quantiles)];
  if (high - low <= SHARE_TOLERANCE) return (low + high) / 2;

  const excess = (share: number): number =>
    heard.reduce((sum, part) => sum + part.weight * betaCdf(share, part.alpha, part.beta), -probability);
  // The part with the lower quantile has its probability at `low` and the other less, and the reverse at
  // `high`; where the other adds nothing a double can hold, the bracket's end is the answer.
  if (excess(low) >= 0) return low;
  if (excess(high) <= 0) return high;
  return bracketedRoot(excess, low, high, SHARE_TOLERANCE);
}
