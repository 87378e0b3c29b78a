import { firstOrderDependenceTest } from '../../statistics/first-order-dependence.js';
import {
  generalizedCochranMantelHaenszel,
  type GeneralAssociation,
} from '../../statistics/generalized-cochran-mantel-haenszel.js';
import { normalCdf } from '../../statistics/distributions.js';
import { runsTest } from '../../statistics/runs-test.js';
import type { IndependenceResult } from '../../statistics/chi-square-test.js';
import type { DimensionName, DimensionValue } from '../dimension-names.js';
import { allPlaces, othersPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import { answeredShare, countAnswers, type CountedShare } from '../decisions/counted-share.js';
import { tallyCodes } from '../decisions/value-counts.js';
import { halves } from '../../football/expected-points-halves.js';
import { playOrder } from '../../football/play-order.js';
import { callPairs, repeatAnswers, situationInGame, type CallPairs } from './call-pairs.js';
import type { JoinedWithin } from './successive-snaps.js';

/** How the snap before bears on the next one in one situation. */
export interface SituationDependence {
  readonly situation: string;
  /** Pairs whose later snap is in the situation and does what the one before did. */
  readonly repeated: CountedShare;
  /** Counts, from × to, in the order of `values`. */
  readonly transitions: readonly (readonly number[])[];
  /** Transition-table test; null where fewer than two values are left or entered. Trust it from 5 expected a cell. */
  readonly test: IndependenceResult | null;
  /** For a dimension of two values: do the snaps of this situation, in their order, change too often? */
  readonly runs: PooledRuns | null;
}

/** Runs of the sequences of several games, each judged by its own counts and added up. */
export interface PooledRuns {
  /** Sequences in which both values occur. */
  readonly sequences: number;
  readonly snaps: number;
  readonly runs: number;
  readonly expected: number;
  /** Above 0: too many changes. */
  readonly z: number;
  /** Two-sided, normal approximation. */
  readonly pValue: number;
}

export interface OrderDependence {
  readonly values: readonly DimensionValue[];
  readonly within: JoinedWithin;
  readonly situations: readonly SituationDependence[];
  /** Of all pairs, those that do what the snap before did. */
  readonly repeated: CountedShare;
  /**
   * All situations together, inside situation and game: what stays once a down, a distance and a game's plan are held.
   * Values beyond the seven most frequent count as one. Null where nothing can be compared there.
   */
  readonly overall: GeneralAssociation | null;
}

/**
 * Does a call depend on the one before it? Pairs are made inside a drive, or where asked for inside a half, never across
 * halves or games, and are tested inside the situation of the later snap.
 *
 * @param asked     - whole charts, unfiltered
 * @param dimension - what is read; runs are counted where it has two values in the batch
 * @param within    - what a pair, and a sequence of the runs test, must lie in
 * @returns situations in the order of their list, those without pairs left out
 * @throws DomainError `stats.invalid_probability`, `vocabulary.unknown_code`
 * @see Anderson & Goodman (1957), Ann. Math. Stat. 28, 89–110; Wald & Wolfowitz (1940), Ann. Math. Stat. 11, 147–162;
 *   Landis, Heyman & Koch (1978), Int. Stat. Rev. 46, 237–254
 */
export function orderDependence(
  asked: AskedPlays,
  dimension: DimensionName,
  within: JoinedWithin = 'drive',
): OrderDependence {
  const { facts, field, player, vocabulary, confidence } = asked;
  const pairs = callPairs(facts, allPlaces(facts), dimension, vocabulary, within);
  const others =
    field === null ? null : callPairs(field.facts, othersPlaces(field, player), dimension, vocabulary, within);
  const repeated = repeatAnswers(pairs);
  const fieldRepeated = others === null ? null : repeatAnswers(others);

  const situations = facts.situationNames.flatMap((situation, code): SituationDependence[] => {
    const places = pairs.places.filter((play) => facts.situation[play] === code);
    if (places.length === 0) return [];
    const fieldCode = field?.facts.situationNames.indexOf(situation) ?? -1;
    const fieldPlaces = others?.places.filter((play) => others.facts.situation[play] === fieldCode) ?? null;
    const fieldCounts =
      fieldPlaces === null || fieldRepeated === null ? null : countAnswers(fieldRepeated, fieldPlaces);
    const transitions = transitionsOf(pairs, places);
    return [
      {
        situation,
        repeated: answeredShare(facts, repeated, places, fieldCounts, confidence),
        transitions,
        test: testOf(transitions),
        runs: pairs.read.values.length === 2 ? pooledRuns(pairs, code, within) : null,
      },
    ];
  });
  const fieldCounts = others === null || fieldRepeated === null ? null : countAnswers(fieldRepeated, others.places);
  return {
    values: pairs.read.values,
    within,
    situations,
    repeated: answeredShare(facts, repeated, pairs.places, fieldCounts, confidence),
    overall: overallOf(pairs),
  };
}

function transitionsOf({ read, previous }: CallPairs, places: Int32Array): number[][] {
  const values = read.values.length;
  const counts = Array.from({ length: values }, () => new Array<number>(values).fill(0));
  for (const play of places) {
    const row = counts[read.codes[previous[play] ?? -1] ?? 0];
    const to = read.codes[play] ?? 0;
    if (row !== undefined) row[to] = (row[to] ?? 0) + 1;
  }
  return counts;
}

function testOf(transitions: readonly (readonly number[])[]): IndependenceResult | null {
  const left = transitions.filter((row) => row.some((count) => count > 0));
  const entered = transitions.filter((_, to) => transitions.some((row) => (row[to] ?? 0) > 0));
  return left.length < 2 || entered.length < 2 ? null : firstOrderDependenceTest(transitions);
}

function overallOf(pairs: CallPairs): GeneralAssociation | null {
  const gathered = withFewValues(pairs);
  const strata = new Map<number, number[]>();
  for (const play of pairs.places) {
    const where = situationInGame(pairs.facts, play);
    if (where >= 0) strata.set(where, [...(strata.get(where) ?? []), play]);
  }
  const tables = [...strata.values()].map((places) => transitionsOf(gathered, Int32Array.from(places)));
  const telling = tables.some((table) => testOf(table) !== null);
  return telling ? generalizedCochranMantelHaenszel(tables) : null;
}

// The test's matrix has (values - 1)⁴ entries, and rare values bring no power for them.
const MOST_VALUES = 8;

/** The most frequent values as they are, all others as one. */
function withFewValues(pairs: CallPairs): CallPairs {
  const { codes, values } = pairs.read;
  if (values.length <= MOST_VALUES) return pairs;
  const counts = tallyCodes({ read: pairs.read, places: pairs.places });
  const byFrequency = [...values.keys()].sort((a, b) => (counts[b] ?? 0) - (counts[a] ?? 0));
  const classOf = new Int16Array(values.length).fill(MOST_VALUES - 1);
  byFrequency.slice(0, MOST_VALUES - 1).forEach((code, place) => {
    classOf[code] = place;
  });
  const classed = Int16Array.from(codes, (code) => (code < 0 ? code : (classOf[code] ?? -1)));
  return { ...pairs, read: { codes: classed, values: values.slice(0, MOST_VALUES) } };
}

function pooledRuns({ facts, read }: CallPairs, situation: number, within: JoinedWithin): PooledRuns | null {
  const half = halves(facts.plays);
  const drives = facts.plays.number('drive').values;
  const sequences = new Map<string, boolean[]>();
  for (const play of playOrder(facts.plays)) {
    const code = read.codes[play] ?? -1;
    if (facts.counts[play] !== 1 || facts.situation[play] !== situation || code < 0) continue;
    const stretch = within === 'half' ? (half[play] ?? 0) : (drives[play] ?? 0);
    // An unknown half is 0, an unknown drive negative: neither says what a snap follows.
    if (stretch <= 0) continue;
    const key = `${facts.plays.chartIndex[play] ?? 0}/${stretch}`;
    sequences.set(key, [...(sequences.get(key) ?? []), code === 1]);
  }
  const mixed = [...sequences.values()].filter((sequence) => sequence.includes(true) && sequence.includes(false));
  const tests = mixed.map(runsTest);
  const total = (pick: (test: (typeof tests)[number]) => number): number =>
    tests.reduce((sum, test) => sum + pick(test), 0);
  const variance = total((test) => test.variance);
  if (variance === 0) return null;
  const [runs, expected] = [total((test) => test.runs), total((test) => test.mean)];
  const z = (runs - expected) / Math.sqrt(variance);
  return {
    sequences: mixed.length,
    snaps: mixed.reduce((sum, sequence) => sum + sequence.length, 0),
    runs,
    expected,
    z,
    pValue: Math.min(1, 2 * normalCdf(-Math.abs(z))),
  };
}
