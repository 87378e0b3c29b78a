/** Two bounds of an estimate, in the estimate's own unit; lower ≤ upper. */
export interface Interval {
  readonly lower: number;
  readonly upper: number;
}
