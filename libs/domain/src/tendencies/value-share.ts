import type { ShareEstimate } from '../statistics/dirichlet-multinomial-posterior.js';
import type { DimensionValue } from './dimension-names.js';
import type { Evidence } from './evidence.js';
import type { FieldShare, Results } from './results-shape.js';
import type { SharePosterior } from './share-posterior.js';

/** What the shares of one dimension in one situation are worked out from. */
export interface ShareWork {
  raw(of: ValueShare): ShareEstimate;
  field(of: ValueShare): FieldShare | null;
  isOneOff(of: ValueShare): boolean;
  posterior(of: ValueShare): SharePosterior | null;
  /** The posterior's mean, and the interval around it. */
  shrunk(of: ValueShare): ShareEstimate | null;
  results(of: ValueShare): Results;
  evidence(of: ValueShare): Evidence;
}

/**
 * How often a player did one thing. All but the counting is worked out when it is asked for, and little of it kept: a
 * profile has thousands of shares and a reader looks at some, or at each once. Not for JSON as it is: list its fields.
 */
export class ValueShare {
  readonly #work: ShareWork;
  #shrunk: ShareEstimate | null | undefined;

  /**
   * @param count      - plays, unweighted
   * @param share      - of the plays on which the dimension is known; weighted where weights were given
   * @param code       - place in the player's list of values, -1 where it does not stand there
   * @param fieldPlace - the same in the field's
   */
  constructor(
    readonly value: DimensionValue,
    readonly count: number,
    readonly share: number,
    readonly code: number,
    readonly fieldPlace: number,
    work: ShareWork,
  ) {
    this.#work = work;
  }

  /**
   * Share of the plays on which the dimension is known, with its Wilson interval; weighted where weights were given. The
   * same object for values that were used equally often and are asked for one after the other.
   */
  get raw(): ShareEstimate {
    return this.#work.raw(this);
  }

  /**
   * Null where the field has no plays on which the dimension is known. The same object whenever this player is asked about
   * and the field is the same.
   */
  get field(): FieldShare | null {
    return this.#work.field(this);
  }

  get evidence(): Evidence {
    return this.#work.evidence(this);
  }

  /** What came of the plays. */
  get results(): Results {
    return this.#work.results(this);
  }

  /** What is believed of the share; null where the field has no plays to shrink towards. */
  get posterior(): SharePosterior | null {
    return this.#work.posterior(this);
  }

  /** The posterior's mean, and an interval that holds for players far off the field too; null where there is no posterior. */
  get shrunk(): ShareEstimate | null {
    // Kept: its quantiles have no closed form.
    if (this.#shrunk === undefined) this.#shrunk = this.#work.shrunk(this);
    return this.#shrunk;
  }

  /**
   * Done once, and no sign that it is done too seldom: known on few plays, or seldom done by the field too. Never where
   * plays are weighted.
   */
  get isOneOff(): boolean {
    return this.#work.isOneOff(this);
  }

  /** The field's share lies outside the raw interval while the shrunk one still holds it: look at the plays. */
  get conflict(): boolean {
    const { field } = this;
    if (field === null || holds(this.raw, field.share)) return false;
    return this.shrunk !== null && holds(this.shrunk, field.share);
  }
}

function holds({ interval }: ShareEstimate, share: number): boolean {
  return interval.lower <= share && share <= interval.upper;
}
