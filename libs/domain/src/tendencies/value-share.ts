import type { ShareEstimate } from '../statistics/dirichlet-multinomial-posterior.js';
import type { DimensionValue } from './dimension-names.js';
import type { Evidence } from './evidence.js';
import type { FieldShare, Results } from './results-shape.js';
import type { SharePosterior } from './share-posterior.js';

interface ValueShareParts {
  readonly value: DimensionValue;
  readonly count: number;
  readonly raw: ShareEstimate;
  readonly field: FieldShare | null;
  readonly evidence: Evidence;
}

/** What a share works out when it is first asked for. */
export interface ValueShareWork {
  readonly posterior: () => SharePosterior | null;
  readonly results: () => Results;
}

/**
 * How often a player did one thing. The posterior and the results are worked out when they are first asked for: the one's
 * quantiles have no closed form, the others take passes of their own over the plays, a profile has thousands of shares,
 * and a reader looks at some. Not for JSON as it is: list its fields.
 */
export class ValueShare implements ValueShareParts {
  readonly value: DimensionValue;
  /** Plays, unweighted. */
  readonly count: number;
  /** Share of the plays on which the dimension is known, with its Wilson interval; weighted where weights were given. */
  readonly raw: ShareEstimate;
  /** Null where the field has no plays on which the dimension is known. */
  readonly field: FieldShare | null;
  readonly evidence: Evidence;
  readonly #work: ValueShareWork;
  readonly #confidence: number;
  #results: Results | undefined;
  #posterior: SharePosterior | null | undefined;
  #shrunk: ShareEstimate | null | undefined;

  constructor(parts: ValueShareParts, work: ValueShareWork, confidence: number) {
    this.value = parts.value;
    this.count = parts.count;
    this.raw = parts.raw;
    this.field = parts.field;
    this.evidence = parts.evidence;
    this.#work = work;
    this.#confidence = confidence;
  }

  /** What came of the plays. */
  get results(): Results {
    this.#results ??= this.#work.results();
    return this.#results;
  }

  /** What is believed of the share; null where the field has no plays to shrink towards. */
  get posterior(): SharePosterior | null {
    if (this.#posterior === undefined) this.#posterior = this.#work.posterior();
    return this.#posterior;
  }

  /** The posterior's mean, and an interval that holds for players far off the field too; null where there is no posterior. */
  get shrunk(): ShareEstimate | null {
    if (this.#shrunk === undefined) {
      const posterior = this.posterior;
      this.#shrunk =
        posterior === null ? null : { share: posterior.share, interval: posterior.interval(this.#confidence) };
    }
    return this.#shrunk;
  }

  /** The field's share lies outside the raw interval while the shrunk one still holds it: look at the plays. */
  get conflict(): boolean {
    const { field, raw } = this;
    if (field === null || holds(raw, field.share)) return false;
    return this.shrunk !== null && holds(this.shrunk, field.share);
  }
}

function holds({ interval }: ShareEstimate, share: number): boolean {
  return interval.lower <= share && share <= interval.upper;
}
