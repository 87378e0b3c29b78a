import { UNKNOWN_CODE, UNKNOWN_NUMBER, type PlayColumns } from '../../charting/play-columns.js';
import type { NumberFieldName } from '../../charting/play-fields.js';
import { bandNames, zoneCodes, type Classification, type SituationSettings } from '../../football/situations.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { allPlaces, othersPlaces, type AskedPlays } from './asked-plays.js';
import { answeredShare, countAnswers, type Answers, type CountedShare } from './counted-share.js';

/** A way to part plays, the same for the player and the field. */
export interface Partition {
  readonly name: string;
  readonly classify: (plays: PlayColumns) => Classification;
}

/** What is asked of a batch's plays. */
export type AnswersOf = (facts: TendencyPlays) => Answers;

/** One part of a partition. */
export interface PartShare {
  readonly part: string;
  readonly share: CountedShare;
}

export interface PartitionedShare {
  readonly partition: string;
  /** In the order of the partition; parts in which the player knows nothing are left out. */
  readonly parts: readonly PartShare[];
}

/** Distance on fourth down in the clan's own bands. Reads distance. */
export function byDistance({ fourthDownBands }: SituationSettings): Partition {
  return bands('distance', 'distance', bandNames(fourthDownBands), fourthDownBands);
}

/** Reads yardsToGoal. */
export function byZone(settings: SituationSettings): Partition {
  return { name: 'zone', classify: (plays) => zoneCodes(plays, settings) };
}

/** One score is at most eight points. Reads scoreDifference. Common practice, no source. */
export const BY_SCORE: Partition = bands(
  'score',
  'scoreDifference',
  ['behind by two scores', 'behind by one', 'tied', 'ahead by one', 'ahead by two scores'],
  [-9, -1, 0, 8],
);

/** When the timeouts of a half run out with it. Reads quarter. */
export const BY_HALF: Partition = bands('half', 'quarter', ['first half', 'second half', 'overtime'], [2, 4]);

/** Any classification that a caller has made of both batches, such as the clock's, which needs each game's quarter. */
export function byClassification(name: string, classify: (plays: PlayColumns) => Classification): Partition {
  return { name, classify };
}

function bands(name: string, field: NumberFieldName, names: readonly string[], ends: readonly number[]): Partition {
  return {
    name,
    classify: (plays) => {
      const { values } = plays.number(field);
      const codes = Int8Array.from(values, (value) =>
        value === UNKNOWN_NUMBER ? UNKNOWN_CODE : ends.filter((end) => value > end).length,
      );
      return { codes, names };
    },
  };
}

/**
 * Share of plays answered yes, in each part of each partition, against the field in the same part.
 *
 * @param answersOf - 1 yes, 0 no, -1 where the play is not asked or not known; one a play of the batch given
 * @throws DomainError `stats.invalid_probability`
 */
export function partitionedShares(
  { facts, field, player, confidence }: AskedPlays,
  answersOf: AnswersOf,
  partitions: readonly Partition[],
): PartitionedShare[] {
  const answers = answersOf(facts);
  const fieldAnswers = field === null ? null : answersOf(field.facts);
  const others = field === null ? new Int32Array(0) : othersPlaces(field, player);
  return partitions.map(({ name, classify }) => {
    const { codes, names } = classify(facts.plays);
    const fieldCodes = field === null ? null : classify(field.facts.plays).codes;
    const parts = names.map((part, code): PartShare => {
      const places = allPlaces(facts).filter((play) => codes[play] === code);
      const fieldPlaces = others.filter((play) => fieldCodes?.[play] === code);
      const counts = fieldAnswers === null ? null : countAnswers(fieldAnswers, fieldPlaces);
      return { part, share: answeredShare(facts, answers, places, counts, confidence) };
    });
    return { partition: name, parts: parts.filter(({ share }) => share.known > 0) };
  });
}

/** The same without parting. */
export function wholeShare({ facts, field, player, confidence }: AskedPlays, answersOf: AnswersOf): CountedShare {
  const counts = field === null ? null : countAnswers(answersOf(field.facts), othersPlaces(field, player));
  return answeredShare(facts, answersOf(facts), allPlaces(facts), counts, confidence);
}
