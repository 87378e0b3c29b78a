import type { DimensionName } from '../dimension-names.js';
import { allPlaces, othersPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import { answeredShare, countAnswers, type CountedShare } from '../decisions/counted-share.js';
import { callPairs, repeatAnswers, situationInGame, type CallPairs } from './call-pairs.js';
import { matchTest, type MatchStratum, type MatchTest } from './match-test.js';

/** Whether a player does the same again after it worked, or after it did not. */
export interface RepeatHabit {
  readonly after: 'success' | 'failure';
  /** Snaps that repeat the value of the snap before, of those where both are known. */
  readonly repeated: CountedShare;
  /**
   * Share that the player's own other snaps in the same situations would lead one to expect, in [0, 1]: the pair's two
   * snaps left out. Null where no situation has other snaps. `expectedOf` says on how many pairs it rests.
   */
  readonly anyway: number | null;
  readonly expectedOf: number;
  /**
   * Against chance inside the same game and situation, so that neither a down and distance nor a game's plan makes a
   * habit; null where that leaves nothing to compare.
   */
  readonly test: MatchTest | null;
}

/**
 * Does the player call the same again in the same drive, after a success and after a failure? Judged against what the
 * player does anyway in the situation, and shown beside the field's.
 *
 * @param asked     - for an offense its calls, for a defense its answers; whole charts, unfiltered
 * @param dimension - what must be the same, such as the call family
 * @returns after success, then after failure
 * @throws DomainError `stats.invalid_probability`, `vocabulary.unknown_code`
 * @see Hoeffding (1951), Ann. Math. Stat. 22, 558–566 (the test); Wilson (1927), J. Am. Stat. Assoc. 22, 209–212
 */
export function repeatHabits(asked: AskedPlays, dimension: DimensionName): RepeatHabit[] {
  const { facts, field, player, vocabulary, confidence } = asked;
  const own = callPairs(facts, allPlaces(facts), dimension, vocabulary, 'drive');
  const others =
    field === null ? null : callPairs(field.facts, othersPlaces(field, player), dimension, vocabulary, 'drive');
  const anyway = sharesInSituations(own);
  return ([1, 0] as const).map((outcome) => {
    const pairs = pairsAfter(own, outcome);
    const fieldPairs = others === null ? null : pairsAfter(others, outcome);
    const fieldCounts = fieldPairs === null ? null : countAnswers(repeatAnswers(fieldPairs), fieldPairs.places);
    const expected = anyway(pairs);
    return {
      after: outcome === 1 ? 'success' : 'failure',
      repeated: answeredShare(facts, repeatAnswers(pairs), pairs.places, fieldCounts, confidence),
      anyway: expected.mean,
      expectedOf: expected.pairs,
      test: matchTest(strataOf(pairs)),
    };
  });
}

function pairsAfter(pairs: CallPairs, outcome: 0 | 1): CallPairs {
  const { success } = pairs.facts;
  return { ...pairs, places: pairs.places.filter((play) => success[pairs.previous[play] ?? -1] === outcome) };
}

/** Pairs by game and situation of the later snap. */
export function strataOf(pairs: CallPairs): MatchStratum[] {
  const { facts, read, places, previous } = pairs;
  const strata = new Map<number, { first: number[]; second: number[]; matches: number }>();
  for (const play of places) {
    const where = situationInGame(facts, play);
    if (where < 0) continue;
    const none = (): number[] => new Array<number>(read.values.length).fill(0);
    const stratum = strata.get(where) ?? { first: none(), second: none(), matches: 0 };
    strata.set(where, stratum);
    const [from, to] = [read.codes[previous[play] ?? -1] ?? 0, read.codes[play] ?? 0];
    stratum.first[from] = (stratum.first[from] ?? 0) + 1;
    stratum.second[to] = (stratum.second[to] ?? 0) + 1;
    if (from === to) stratum.matches += 1;
  }
  return [...strata.values()];
}

/** How often each value is used in each situation, with the two snaps of the pair in question taken out. */
function sharesInSituations({ facts, read }: CallPairs): (pairs: CallPairs) => { mean: number | null; pairs: number } {
  const values = read.values.length;
  const counts = new Int32Array(facts.situationNames.length * values);
  const known = new Int32Array(facts.situationNames.length);
  for (let play = 0; play < read.codes.length; play += 1) {
    const [situation, code] = [facts.situation[play] ?? -1, read.codes[play] ?? -1];
    if (facts.counts[play] !== 1 || situation < 0 || code < 0) continue;
    counts[situation * values + code] = (counts[situation * values + code] ?? 0) + 1;
    known[situation] = (known[situation] ?? 0) + 1;
  }
  return ({ places, previous }) => {
    let [sum, pairs] = [0, 0];
    for (const play of places) {
      const situation = facts.situation[play] ?? -1;
      if (situation < 0) continue;
      const before = previous[play] ?? -1;
      const code = read.codes[before] ?? 0;
      const sameSituation = facts.situation[before] === situation ? 1 : 0;
      const others = (known[situation] ?? 0) - 1 - sameSituation;
      if (others < 1) continue;
      const again = read.codes[play] === code ? 1 : 0;
      sum += ((counts[situation * values + code] ?? 0) - again - sameSituation) / others;
      pairs += 1;
    }
    return { mean: pairs === 0 ? null : sum / pairs, pairs };
  };
}
