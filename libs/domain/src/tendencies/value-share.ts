import type { ShareEstimate } from '../statistics/dirichlet-multinomial-posterior.js';
import type { DimensionValue } from './dimension-names.js';
import type { Evidence } from './evidence.js';
import type { FieldShare, Results } from './results-shape.js';
import type { SharePosterior } from './share-posterior.js';

/** Where a value stands in what its dimension counted. */
export interface ValuePlace {
  readonly value: DimensionValue;
  /** Plays, unweighted. */
  readonly count: number;
  /** Of the plays on which the dimension is known; weighted where weights were given. */
  readonly share: number;
  /** In the player's list of values and in the field's; -1 where it does not stand. */
  readonly code: number;
  readonly fieldPlace: number;
}

/** What the shares of one dimension in one situation are worked out from. */
export interface ShareWork {
  raw(of: ValuePlace): ShareEstimate;
  field(of: ValuePlace): FieldShare | null;
  posterior(of: ValuePlace): SharePosterior | null;
  /** The posterior's mean, and the interval around it. */
  shrunk(of: ValuePlace): ShareEstimate | null;
  results(of: ValuePlace): Results;
  evidence(of: ValuePlace): Evidence;
}

/**
 * How often a player did one thing. All but the count is worked out when it is asked for, and little of it kept: a profile
 * has thousands of shares and a reader looks at some, or at each once. Not for JSON as it is: list its fields.
 */
export class ValueShare {
  readonly #place: ValuePlace;
  readonly #work: ShareWork;
  #shrunk: ShareEstimate | null | undefined;

  constructor(place: ValuePlace, work: ShareWork) {
    this.#place = place;
    this.#work = work;
  }

  get value(): DimensionValue {
    return this.#place.value;
  }

  /** Plays, unweighted. */
  get count(): number {
    return this.#place.count;
  }

  /** Share of the plays on which the dimension is known, with its Wilson interval; weighted where weights were given. */
  get raw(): ShareEstimate {
    return this.#work.raw(this.#place);
  }

  /** Null where the field has no plays on which the dimension is known. */
  get field(): FieldShare | null {
    return this.#work.field(this.#place);
  }

  get evidence(): Evidence {
    return this.#work.evidence(this.#place);
  }

  /** What came of the plays. */
  get results(): Results {
    return this.#work.results(this.#place);
  }

  /** What is believed of the share; null where the field has no plays to shrink towards. */
  get posterior(): SharePosterior | null {
    return this.#work.posterior(this.#place);
  }

  /** The posterior's mean, and an interval that holds for players far off the field too; null where there is no posterior. */
  get shrunk(): ShareEstimate | null {
    // Kept: its quantiles have no closed form.
    if (this.#shrunk === undefined) this.#shrunk = this.#work.shrunk(this.#place);
    return this.#shrunk;
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
