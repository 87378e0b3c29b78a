import { assertCount } from './guards.js';

/** A share as it was counted. */
export interface Proportion {
  /** Integer, 0 ≤ successes ≤ trials. */
  readonly successes: number;
  /** Integer ≥ 1, or ≥ 0 where a function says that empty groups are welcome. */
  readonly trials: number;
}

export function assertProportion(name: string, { successes, trials }: Proportion, minTrials = 1): void {
  assertCount(`${name} trials`, trials, { min: minTrials });
  assertCount(`${name} successes`, successes, { min: 0, max: trials });
}
