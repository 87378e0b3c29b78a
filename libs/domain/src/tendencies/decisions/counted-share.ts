import type { ShareEstimate } from '../../statistics/dirichlet-multinomial-posterior.js';
import type { Interval } from '../../statistics/interval.js';
import { newcombeDifferenceInterval } from '../../statistics/newcombe-difference-interval.js';
import { wilsonInterval } from '../../statistics/wilson-interval.js';
import { Evidence } from '../evidence.js';
import type { FieldShare } from '../results-shape.js';
import { fieldShare } from '../results.js';
import type { TendencyPlays } from '../tendency-plays.js';

/** How often something happened, and how often it could be known. */
export interface Counted {
  readonly count: number;
  readonly known: number;
}

/** A share with the counts that it is never said without. */
export interface CountedShare extends Counted {
  /** `count` of `known` with its Wilson interval; null where nothing is known, which is not a share of 0. */
  readonly raw: ShareEstimate | null;
  /** The same for the other players together; null without a field or where it knows nothing. */
  readonly field: FieldShare | null;
  /** The plays counted. */
  readonly evidence: Evidence;
}

/** What is asked of each play of a batch: 1 yes, 0 no, -1 not known. */
export type Answers = Int8Array;

export function countAnswers(answers: Answers, places: Int32Array): Counted {
  let count = 0;
  let known = 0;
  for (const play of places) {
    const answer = answers[play] ?? -1;
    if (answer < 0) continue;
    known += 1;
    count += answer;
  }
  return { count, known };
}

/**
 * @param own        - the player's counts
 * @param field      - the other players' counts, null without a field
 * @param confidence - of the interval, in (0, 1)
 * @param evidence   - the plays counted
 * @throws DomainError `stats.invalid_probability`
 * @see Wilson (1927), J. Am. Stat. Assoc. 22, 209–212
 */
export function countedShare(
  own: Counted,
  field: Counted | null,
  confidence: number,
  evidence: Evidence,
): CountedShare {
  return {
    count: own.count,
    known: own.known,
    raw: shareEstimate(own, confidence),
    field: field === null ? null : fieldShare(field.count, field.known),
    evidence,
  };
}

/** The share and its Wilson interval; null where nothing is known. */
export function shareEstimate({ count, known }: Counted, confidence: number): ShareEstimate | null {
  return known === 0 ? null : { share: count / known, interval: wilsonInterval(count, known, confidence) };
}

/**
 * First share less the second with Newcombe's interval; null where either is not known.
 *
 * @see Newcombe (1998), Stat. Med. 17, 873–890, method 10
 */
export function differenceOf(first: Counted, second: Counted, confidence: number): Interval | null {
  if (first.known === 0 || second.known === 0) return null;
  return newcombeDifferenceInterval(
    { successes: first.count, trials: first.known },
    { successes: second.count, trials: second.known },
    confidence,
  );
}

/** Share of the plays at `places` that are answered yes, with those of the field at `fieldPlaces`. */
export function answeredShare(
  facts: TendencyPlays,
  answers: Answers,
  places: Int32Array,
  field: Counted | null,
  confidence: number,
): CountedShare {
  const evidence = new Evidence(facts.plays, places, (play) => answers[play] === 1);
  return countedShare(countAnswers(answers, places), field, confidence, evidence);
}
