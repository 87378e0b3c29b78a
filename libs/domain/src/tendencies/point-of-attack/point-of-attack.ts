import type { CodeFieldName } from '../../charting/play-fields.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import { choiceMask } from '../../football/play-masks.js';
import type { Interval } from '../../statistics/interval.js';
import { fieldCodes, type DimensionCodes } from '../dimension-codes.js';
import type { DimensionValue } from '../dimension-names.js';
import { Evidence } from '../evidence.js';
import type { Results } from '../results-shape.js';
import type { TendencyPlays } from '../tendency-plays.js';
import { allPlaces, othersPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import {
  answeredShare,
  countAnswers,
  differenceOf,
  type Answers,
  type CountedShare,
} from '../decisions/counted-share.js';
import { resultsOfPlays } from '../decisions/results-of-plays.js';
import { resultCounts } from '../value-tallies.js';
import { valueCounts, type ValueCount } from '../decisions/value-counts.js';

/** Intended against real: how often a ball meant for one place went to another. */
export interface MeantAndWent {
  readonly meant: DimensionValue;
  readonly went: DimensionValue;
  readonly count: number;
  readonly evidence: Evidence;
}

/** One group of plays: all, or those against one front or one side of pressure. */
export interface AttackSplit {
  /** Null for all plays together. */
  readonly value: DimensionValue | null;
  readonly snaps: number;
  /** Forced off the design, of plays on which that is known; what was read by design was not forced. */
  readonly forced: CountedShare;
  readonly whenForced: Results;
  readonly whenNot: Results;
  /** Success when forced less success when not, Newcombe's interval; null where either is not known. */
  readonly price: Interval | null;
}

export interface PointOfAttack {
  readonly all: AttackSplit;
  /** What forced it, most frequent first; `no` and `read by design` among them. */
  readonly causes: readonly ValueCount[];
  readonly sides: readonly MeantAndWent[];
  readonly gaps: readonly MeantAndWent[];
  /** Went to another side than meant, whatever the cause, of plays on which both are known. */
  readonly otherSide: CountedShare;
  readonly byFront: readonly AttackSplit[];
  readonly byPressureSide: readonly AttackSplit[];
}

const FORCED = [
  'forced by a set edge',
  'forced by penetration',
  'forced by an unblocked rusher',
  'passer flushed',
  'forced, cause unseen',
];
const NOT_FORCED = ['no', 'read by design'];

/**
 * Where the player wants to go against where the ball went: how often it was forced off the design, by what, and what
 * came of it forced and not, split by front and by the side of the pressure. Plays on which the chart does not say take
 * no part: a change of side alone does not tell a forced ball from a read one.
 *
 * @param asked - plays with the ball, or for a defense those that it faced; counting snaps only take part
 * @throws DomainError `stats.invalid_probability`
 * @see Wilson (1927), J. Am. Stat. Assoc. 22, 209–212; Newcombe (1998), Stat. Med. 17, 873–890
 */
export function pointOfAttack(asked: AskedPlays): PointOfAttack {
  const { facts, field, player, vocabulary, confidence } = asked;
  const own: AttackPlays = { facts, answers: forcedAnswers(facts), places: counting(facts, allPlaces(facts)) };
  const others: AttackPlays | null =
    field === null
      ? null
      : {
          facts: field.facts,
          answers: forcedAnswers(field.facts),
          places: counting(field.facts, othersPlaces(field, player)),
        };
  const read = (name: CodeFieldName, of: TendencyPlays): DimensionCodes => fieldCodes(name, of, vocabulary);
  const causes = (of: AttackPlays): Parameters<typeof valueCounts>[0] => ({ ...of, read: read('offDesign', of.facts) });
  const moved = sideAnswers(facts, vocabulary);
  const fieldMoved = others === null ? null : countAnswers(sideAnswers(others.facts, vocabulary), others.places);
  return {
    all: splitOf(null, own, others, confidence),
    causes: valueCounts(causes(own), others === null ? null : causes(others), confidence),
    sides: meantAndWent(own, read('designedSide', facts), read('actualSide', facts)),
    gaps: meantAndWent(own, read('designedGap', facts), read('actualGap', facts)),
    otherSide: answeredShare(facts, moved, own.places, fieldMoved, confidence),
    byFront: splitsBy('front', own, others, vocabulary, confidence),
    byPressureSide: splitsBy('pressureSide', own, others, vocabulary, confidence),
  };
}

interface AttackPlays {
  readonly facts: TendencyPlays;
  /** 1 forced, 0 not, -1 not known. */
  readonly answers: Answers;
  readonly places: Int32Array;
}

function counting(facts: TendencyPlays, places: Int32Array): Int32Array {
  return places.filter((play) => facts.counts[play] === 1);
}

function forcedAnswers({ plays }: TendencyPlays): Answers {
  const forced = choiceMask(plays, 'offDesign', FORCED);
  const not = choiceMask(plays, 'offDesign', NOT_FORCED);
  return Int8Array.from(forced, (is, play) => (is === 1 ? 1 : not[play] === 1 ? 0 : -1));
}

function sideAnswers(facts: TendencyPlays, vocabulary: Vocabulary): Answers {
  const meant = fieldCodes('designedSide', facts, vocabulary);
  const went = fieldCodes('actualSide', facts, vocabulary);
  return Int8Array.from(meant.codes, (code, play) => {
    const [from, to] = [meant.values[code]?.key, went.values[went.codes[play] ?? -1]?.key];
    return from === undefined || to === undefined ? -1 : from === to ? 0 : 1;
  });
}

function splitOf(
  value: DimensionValue | null,
  own: AttackPlays,
  others: AttackPlays | null,
  confidence: number,
): AttackSplit {
  const results = (answer: number): Results => {
    const of = ({ answers, places }: AttackPlays): Int32Array => places.filter((play) => answers[play] === answer);
    const field = others === null ? null : resultCounts(others.facts, of(others));
    return resultsOfPlays(own.facts, of(own), field, confidence);
  };
  const [whenForced, whenNot] = [results(1), results(0)];
  const fieldCounts = others === null ? null : countAnswers(others.answers, others.places);
  return {
    value,
    snaps: own.places.length,
    forced: answeredShare(own.facts, own.answers, own.places, fieldCounts, confidence),
    whenForced,
    whenNot,
    price: differenceOf(
      { count: whenForced.successes, known: whenForced.trials },
      { count: whenNot.successes, known: whenNot.trials },
      confidence,
    ),
  };
}

function splitsBy(
  name: CodeFieldName,
  own: AttackPlays,
  others: AttackPlays | null,
  vocabulary: Vocabulary,
  confidence: number,
): AttackSplit[] {
  const read = fieldCodes(name, own.facts, vocabulary);
  const fieldRead = others === null ? null : fieldCodes(name, others.facts, vocabulary);
  return read.values
    .map((value, code) => {
      const fieldCode = fieldRead?.values.findIndex(({ key }) => key === value.key);
      return splitOf(
        value,
        { ...own, places: own.places.filter((play) => read.codes[play] === code) },
        others === null
          ? null
          : {
              ...others,
              places: others.places.filter((play) => fieldCode !== -1 && fieldRead?.codes[play] === fieldCode),
            },
        confidence,
      );
    })
    .filter(({ snaps }) => snaps > 0)
    .sort((first, second) => second.snaps - first.snaps);
}

function meantAndWent({ facts, places }: AttackPlays, meant: DimensionCodes, went: DimensionCodes): MeantAndWent[] {
  return meant.values
    .flatMap((from, fromCode) =>
      went.values.flatMap((to, toCode): MeantAndWent[] => {
        const belongs = (play: number): boolean => meant.codes[play] === fromCode && went.codes[play] === toCode;
        const count = places.filter(belongs).length;
        if (count === 0) return [];
        return [{ meant: from, went: to, count, evidence: new Evidence(facts.plays, places, belongs) }];
      }),
    )
    .sort((first, second) => second.count - first.count);
}
