/** Somebody who may be the opponent of the next match. Ids only: a frozen report has no handles. */
export interface NextCandidate {
  readonly playerId: string;
  /** Of being the opponent of the next match. */
  readonly probability: number;
  /** Null: exact. */
  readonly standardError: number | null;
  /** Of the time to prepare, in proportion to the probability among those listed. */
  readonly share: number;
  /** At most five, with counts, the weightiest first. */
  readonly facts: readonly string[];
}

/** Whom the player may meet in one round to come. */
export interface RoundAhead {
  readonly round: string;
  /** That the player plays in it. */
  readonly plays: number;
  /** The most probable first. */
  readonly opponents: readonly { readonly playerId: string; readonly probability: number }[];
}

/** Who is next, as it stood when the report was made. */
export interface NextOpponents {
  /** The bracket says who; else the first of the candidates is only the most probable one. */
  readonly certain: boolean;
  /** At most three; the first is whom the report is on. */
  readonly candidates: readonly NextCandidate[];
  readonly ahead: readonly RoundAhead[];
  /** How the odds were drawn; null where they are exact or there are none, absent in older reports. */
  readonly simulation?: OddsSimulation | null;
}

/** The same bracket, ratings and simulation give the same odds. */
export interface OddsSimulation {
  readonly events: number;
  readonly seed: number;
}
