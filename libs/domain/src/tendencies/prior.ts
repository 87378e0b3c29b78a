/** One part of the prior: with this weight, a player differs from the field as a Dirichlet of this concentration says. */
export interface PriorPart {
  /** Share of the players, in (0, 1]; the parts add up to 1. */
  readonly weight: number;
  /** Prior weight in plays, > 0. */
  readonly concentration: number;
}

/**
 * How much players differ from the field: one part where they are alike, two where some are specialists. `fitted` says
 * whether the field's players were enough to learn it from; if not, the stated fallback stands in.
 */
export interface Prior {
  readonly parts: readonly PriorPart[];
  readonly fitted: boolean;
  /** Players with at least two known plays. */
  readonly players: number;
}
