import type { PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';
import type { CodedPlays } from './coded-plays.js';
import { fitOutcome, type FittedOutcome } from './fitted-outcome.js';
import { DISTANCE_GROUPS, distanceGroups, effectsOfBoth, type EffectsOfBoth } from './situation-effects.js';
import { answerLevels, callLevels, type AnswerLevel, type CallLevel, type Levels } from './levels.js';

export interface AnswerModelInput {
  /** Every play of the field, with the expected points that each added. */
  readonly facts: TendencyPlays;
  /** For each play the number of the player with the ball, and of the one who defends; -1 for nobody known. */
  readonly offenseOf: Int32Array;
  readonly defenseOf: Int32Array;
  /** Every number is below this. */
  readonly players: number;
  readonly vocabulary: Vocabulary;
}

/**
 * What has answered what over an archive: its calls, its answers, and how far results go with either. Fitted once for an
 * archive's revision and asked many times.
 */
export interface AnswerModel {
  readonly facts: TendencyPlays;
  readonly vocabulary: Vocabulary;
  readonly calls: Levels<CallLevel>;
  readonly answers: Levels<AnswerLevel>;
  readonly coded: CodedPlays;
  /** 1 where the play takes part: it counts, has a result, and its call is known. */
  readonly takesPart: Uint8Array;
  /** Plays that do. */
  readonly plays: number;
  /** Expected points added, one a play, from the side with the ball; UNKNOWN_POINTS where it takes no part. */
  readonly pointsAdded: Float64Array;
  /** 1 success, 0 failure, UNKNOWN_POINTS where it takes no part or is not known. */
  readonly succeeded: Float64Array;
  /** Null where the archive has too few plays. */
  readonly points: FittedOutcome | null;
  readonly success: FittedOutcome | null;
  /** Of each play by yards to go; see `distanceGroups`. */
  readonly group: Int8Array;
  /** What calls and answers give more in one group than in another, in points. */
  readonly bySituation: EffectsOfBoth;
}

/**
 * Fits expected points added and success over the field. Success is fitted as 1 and 0 by the same equations: a linear
 * probability, which was not compared with a fit of its logarithm of odds.
 *
 * @throws DomainError `vocabulary.unknown_code`
 * @see fitOutcome
 */
export function fitAnswerModel({ facts, offenseOf, defenseOf, players, vocabulary }: AnswerModelInput): AnswerModel {
  const calls = callLevels(facts, vocabulary);
  const answers = answerLevels(facts, vocabulary);
  const { plays } = facts;
  const coded: CodedPlays = {
    call: calls.codes,
    calls: calls.levels.length,
    answer: answers.codes,
    answers: answers.levels.length,
    offense: offenseOf,
    defense: defenseOf,
    players,
    gameSide: gameSides(plays),
    gameSides: 2 * plays.charts.length,
    situation: facts.situation,
    situations: facts.situationNames.length,
  };
  // Plain loops: typed arrays are mapped several times slower, and an archive has a million plays.
  const takesPart = new Uint8Array(plays.count);
  const pointsAdded = new Float64Array(plays.count).fill(UNKNOWN_POINTS);
  const succeeded = new Float64Array(plays.count).fill(UNKNOWN_POINTS);
  let takingPart = 0;
  for (let play = 0; play < takesPart.length; play += 1) {
    if ((calls.codes[play] ?? -1) < 0 || facts.counts[play] !== 1 || facts.hasResult[play] !== 1) continue;
    takesPart[play] = 1;
    takingPart += 1;
    pointsAdded[play] = facts.pointsAdded?.[play] ?? UNKNOWN_POINTS;
    const outcome = facts.success[play] ?? -1;
    if (outcome >= 0) succeeded[play] = outcome;
  }
  const points = fitOutcome(coded, pointsAdded);
  const group = distanceGroups(plays);
  return {
    facts,
    vocabulary,
    calls,
    answers,
    coded,
    takesPart,
    plays: takingPart,
    pointsAdded,
    succeeded,
    points,
    success: fitOutcome(coded, succeeded),
    group,
    bySituation:
      points === null ? { calls: null, answers: null } : effectsOfBoth(points, pointsAdded, group, DISTANCE_GROUPS),
  };
}

function gameSides({ chartIndex, offenseIsHome }: PlayColumns): Int32Array {
  const sides = new Int32Array(chartIndex.length);
  for (let play = 0; play < sides.length; play += 1) {
    sides[play] = 2 * (chartIndex[play] ?? 0) + (offenseIsHome[play] ?? 0);
  }
  return sides;
}
