/** One thing known before the snap, one value a play. NaN where it is not known. */
export interface FeatureColumn {
  readonly name: string;
  /** Numbers have an order; a category's values are codes without one. */
  readonly kind: 'number' | 'category';
  readonly values: Float64Array;
}
