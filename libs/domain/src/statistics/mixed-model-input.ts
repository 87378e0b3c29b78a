/** A classification of records whose levels are drawn from a normal distribution around 0. */
export interface RandomFactor {
  /** Levels are 0 to this less one; one without a record keeps the mean 0. */
  readonly levels: number;
  /** One a record: its level, or -1 where the factor says nothing of it. */
  readonly of: Int32Array;
}

/** Observations summed by records: those of one record share the levels of every factor. Order is free. */
export interface MixedModelInput {
  readonly factors: readonly RandomFactor[];
  /** Observations of each record, ≥ 1. */
  readonly counts: Float64Array;
  /** Sum of each record's observations. */
  readonly sums: Float64Array;
  /** Squared deviations of all observations from the means of their records, summed; ≥ 0. */
  readonly withinSquares: number;
  /**
   * How variances are estimated: at the maximum of the restricted likelihood, which is often exactly 0 where levels are
   * few; or at that of the likelihood times the standard deviations, which never is, and lies about one standard error
   * higher where the likelihood's would be 0 (Chung, Rabe-Hesketh, Dorie, Gelman & Liu 2013, Psychometrika 78, 685–709).
   * The likelihood's when left out.
   */
  readonly variances?: 'as likely' | 'kept off 0';
}
