import { compensatedSum } from './compensated-sum.js';
import { dirichletMultinomialEvidence } from './dirichlet-multinomial-evidence.js';
import { fitConcentration, fitWeightedConcentration, SMALLEST_CONCENTRATION } from './fit-concentration.js';

/** A prior of two kinds of player around one mean: most are near the field, some go their own way. */
export interface TwoConcentrations {
  /** Share of players of the loose kind, in (0, 1). */
  readonly weight: number;
  /** Prior weight in plays of the kind that stays near the field. */
  readonly tight: number;
  /** Prior weight in plays of the specialists; at most `tight`. */
  readonly loose: number;
}

// What is believed of the specialists before any player is seen: one in ten players, as ten players would show it.
const SPECIALISTS_BEFORE = 1;
const PLAYERS_BEFORE = 10;
// A specialist's play weighs as four of the pool's at most; closer than that the two kinds are one.
const SEPARATION = 4;
const MAXIMUM_ITERATIONS = 500;
// Of the penalised log-likelihood: far below what moves an interval.
const GAIN_TOLERANCE = 1e-7;

/**
 * Two concentrations around a given mean, and how common the loose one is, by expectation and
 * maximisation over groups. A single concentration is a compromise that describes specialists worst,
 * and they are the ones worth scouting; the loose component leaves room for them.
 *
 * The weight of the loose component is held off 0 and 1 by a prior of one specialist in ten players,
 * and the two concentrations are kept a factor 4 apart, so the prior stays heavy-tailed when the groups
 * are few or show no specialist. Limits of the concentrations as in {@link fitConcentration}. Stops when
 * the penalised log-likelihood gains less than 1e-7, or after 500 iterations; the answer is the best seen.
 *
 * @param counts - groups × categories, integers ≥ 0, at least two categories; groups may be empty
 * @param mean   - the field's share of each category, each > 0, adding up to 1
 * @returns weight of the loose component and both concentrations, in plays
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`, `stats.invalid_shape`;
 *         `stats.undefined_statistic` when the groups hold no play at all
 * @see Dempster, Laird & Rubin (1977), J. R. Stat. Soc. B 39, 1–38; Mosimann (1962), Biometrika 49, 65–82
 */
export function fitTwoConcentrations(
  counts: readonly (readonly number[])[],
  mean: readonly number[],
): TwoConcentrations {
  const single = fitConcentration(counts, mean);
  const players = counts.filter((row) => compensatedSum(row) > 0);

  let prior: TwoConcentrations = {
    weight: SPECIALISTS_BEFORE / PLAYERS_BEFORE,
    ...apart(single.concentration * 2, single.concentration / 2),
  };
  if (single.evidence === 'unidentified') return prior;

  let best = prior;
  let height = Number.NEGATIVE_INFINITY;
  for (let iteration = 0; iteration < MAXIMUM_ITERATIONS; iteration += 1) {
    const { specialists, logPosterior } = expectation(players, mean, prior);
    if (logPosterior - height < GAIN_TOLERANCE) break;
    height = logPosterior;
    best = prior;

    const regulars = specialists.map((probability) => 1 - probability);
    prior = {
      weight: (compensatedSum(specialists) + SPECIALISTS_BEFORE) / (players.length + PLAYERS_BEFORE),
      ...apart(
        fitWeightedConcentration(players, regulars, mean).concentration,
        fitWeightedConcentration(players, specialists, mean).concentration,
      ),
    };
  }
  return best;
}

function apart(tight: number, loose: number): { tight: number; loose: number } {
  return { tight, loose: Math.max(SMALLEST_CONCENTRATION, Math.min(loose, tight / SEPARATION)) };
}

function expectation(
  players: readonly (readonly number[])[],
  mean: readonly number[],
  prior: TwoConcentrations,
): { specialists: number[]; logPosterior: number } {
  const evidence = players.map((counts) => ({
    loose: Math.log(prior.weight) + dirichletMultinomialEvidence(counts, mean, prior.loose),
    tight: Math.log1p(-prior.weight) + dirichletMultinomialEvidence(counts, mean, prior.tight),
  }));
  const specialists = evidence.map(({ loose, tight }) => 1 / (1 + Math.exp(tight - loose)));
  const beliefBefore =
    SPECIALISTS_BEFORE * Math.log(prior.weight) + (PLAYERS_BEFORE - SPECIALISTS_BEFORE) * Math.log1p(-prior.weight);
  const terms = evidence.map(
    ({ loose, tight }) => Math.max(loose, tight) + Math.log1p(Math.exp(-Math.abs(loose - tight))),
  );
  return { specialists, logPosterior: compensatedSum([beliefBefore, ...terms]) };
}
