import { clopperPearsonInterval } from '#domain/statistics/clopper-pearson-interval.js';

/** Upper 95 % Monte Carlo bound of the share of questions, asked where there is nothing, that find something. */
const MOST_FALSE = 0.12;

/**
 * Prints in how many of the simulations in which there was nothing something was found, and the bound on their share.
 *
 * @returns whether the bound is within the target
 */
export function printFalseFinds(what: string, wrong: number, of: number): boolean {
  const { upper } = clopperPearsonInterval(wrong, of, 0.9);
  const met = upper <= MOST_FALSE;
  console.log(
    `${what} in ${wrong} of ${of} (${percent(wrong / of)}, upper 95 % bound ${percent(upper)}, target at most ` +
      `${percent(MOST_FALSE)}: ${met ? 'met' : 'missed'})`,
  );
  return met;
}

export function percent(share: number, digits = 1): string {
  return `${(100 * share).toFixed(digits)} %`;
}
