/**
 * A linear programme: maximise objective · x under rows · x ≤ limits, x ≥ 0, and, where `sumTo1` says how many of the
 * first variables are shares, under those adding up to 1.
 */
export interface LinearProgramme {
  readonly objective: readonly number[];
  /** As long as the objective. */
  readonly rows: readonly (readonly number[])[];
  /** One a row. */
  readonly limits: readonly number[];
  /** The first so many variables add up to 1. */
  readonly sumTo1: number;
}

export interface LinearSolution {
  readonly values: readonly number[];
  /** One a row: what the objective would gain by one unit more of its limit, ≥ 0. */
  readonly duals: readonly number[];
}

/** A library's solver, handed in by the caller; null where no point satisfies all rows. */
export type SolveLinearProgramme = (programme: LinearProgramme) => LinearSolution | null;
