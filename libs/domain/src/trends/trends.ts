import type { Vocabulary } from '../charting/vocabulary.js';
import { benjaminiHochberg } from '../statistics/benjamini-hochberg.js';
import { clusteredTrend, type ClusteredTrend, type TrendCell } from '../statistics/clustered-trend.js';
import { elementAt } from '../statistics/element-at.js';
import { assertCount, assertOpenUnit } from '../statistics/guards.js';
import type { Interval } from '../statistics/interval.js';
import { seededRandom, type RandomSource } from '../statistics/seeded-random.js';
import { studentQuantile } from '../statistics/student-quantile.js';
import { twoLevelSelection } from '../statistics/two-level-selection.js';
import type { DimensionValue } from '../tendencies/dimension-names.js';
import type { Side, TendencyPlays } from '../tendencies/tendency-plays.js';
import { readTrendDimension, TREND_DIMENSIONS, type TrendDimension } from './trend-dimensions.js';
import { UsageCounts, type WhoAndWhen } from './usage-counts.js';
import { usageOverEvents, type EventUsage } from './usage-over-events.js';

export interface TrendsInput extends WhoAndWhen {
  /** Plays of everybody, both sides of the ball. */
  readonly facts: TendencyPlays;
  readonly side: Side;
  readonly vocabulary: Vocabulary;
  /** Of every interval, in (0, 1). */
  readonly confidence: number;
  /** Integer ≥ 0: of the turns of signs. */
  readonly seed: number;
}

/**
 * `rising` and `falling` are discoveries. `steady` says that a change of more than five points from the first event to
 * the last is ruled out; all else is `open`: too little is known to say.
 */
export type TrendVerdict = 'rising' | 'falling' | 'steady' | 'open';

/** How one call's share went from event to event. */
export interface Trend {
  readonly dimension: string;
  /** One part, or two for a combination. */
  readonly value: readonly DimensionValue[];
  readonly verdict: TrendVerdict;
  readonly test: ClusteredTrend;
  /** The level of false discoveries at which it would just be one; null for combinations, which have two levels. */
  readonly adjusted: number | null;
  /** Of the share, from the first event to the last along the trend, with its interval. */
  readonly change: { readonly share: number; readonly interval: Interval };
  /** In the order of events. */
  readonly byEvent: readonly EventUsage[];
  /** Players who ever used it. */
  readonly users: number;
  /** Places of its plays in the batch. */
  readonly uses: readonly number[];
}

export interface Trends {
  /** The discoveries first, the surest first; then the others by their size. */
  readonly trends: readonly Trend[];
  /** Calls put to the test; seldom used ones are not, nor combinations of calls that were not found. */
  readonly tested: number;
}

/** Share of discoveries that may be false, on average. */
export const TREND_LEVEL = 0.1;
/** Used less often or by fewer players than this, a call cannot be told to spread. Common practice, no source. */
const FEWEST_USES = 20;
const FEWEST_USERS = 4;
const TURNS = 9999;
const STEADY_POINTS = 0.05;

/**
 * Which calls spread or fade over events. For every formation, concept, front, coverage and so on the share of plays on
 * which it was used, tested for a trend between players, so that neither one heavy user nor a player's own habits make
 * one; false discoveries are held to a tenth over everything that was tested. Combinations are put to the test inside
 * what was found. Which calls are tested is decided by how often and by how many they were used in all, never by when.
 *
 * @returns nothing tested where there are fewer than two events
 * @throws DomainError `stats.invalid_probability`, `stats.invalid_count`
 * @see clusteredTrend; Benjamini & Hochberg (1995), J. R. Stat. Soc. B 57, 289–300; Benjamini & Bogomolov (2014),
 *      J. R. Stat. Soc. B 76, 297–318 (combinations)
 */
export function trends(input: TrendsInput): Trends {
  assertOpenUnit('confidence', input.confidence);
  assertCount('seed', input.seed, { min: 0 });
  const random = seededRandom(input.seed);
  const isPair = ({ parts }: TrendDimension): boolean => parts.length > 1;
  const dimensions = TREND_DIMENSIONS[input.side];
  const singles = dimensions
    .filter((dimension) => !isPair(dimension))
    .flatMap((dimension) => candidates(input, dimension, random, () => true));
  const { adjusted, rejected } = benjaminiHochberg(
    singles.map(({ test }) => test.pValue),
    TREND_LEVEL,
  );
  const foundKeys = new Set(singles.filter((_, place) => rejected[place] === true).map(keyOf));
  const pairs = dimensions
    .filter(isPair)
    .flatMap((dimension) =>
      candidates(input, dimension, random, (value) =>
        value.some(({ key }, part) => foundKeys.has(`${dimension.parts[part] ?? ''} ${key}`)),
      ),
    );
  const foundPairs = pairsFound(singles, pairs);
  const found = [
    ...singles.map((of, place) => trendOf(input, of, elementAt(rejected, place), elementAt(adjusted, place))),
    ...pairs.map((of) => trendOf(input, of, foundPairs.has(of), null)),
  ];
  return { trends: found.sort(bySureness), tested: found.length };
}

/** A call that is used enough to be put to the test. */
interface Candidate {
  readonly dimension: TrendDimension;
  readonly value: readonly DimensionValue[];
  readonly code: number;
  readonly counts: UsageCounts;
  readonly cells: readonly TrendCell[];
  readonly test: ClusteredTrend;
}

function candidates(
  input: TrendsInput,
  dimension: TrendDimension,
  random: RandomSource,
  isAsked: (value: readonly DimensionValue[]) => boolean,
): Candidate[] {
  const read = readTrendDimension(dimension, input.facts, input.vocabulary);
  const counts = new UsageCounts(input.facts, read, input);
  return read.values.flatMap((value, code) => {
    if (!isAsked(value)) return [];
    const cells = cellsOf(counts, input.players, code);
    if (!isTestable(cells, counts.uses(code).length)) return [];
    return [{ dimension, value, code, counts, cells, test: clusteredTrend(cells, TURNS, random) }];
  });
}

/** `concept term:70`, as a part of a combination names it. */
function keyOf({ dimension, value }: Candidate): string {
  return `${dimension.name} ${value[0]?.key ?? ''}`;
}

/** Combinations found inside the calls that were found, at a level cut to the share of calls found. */
function pairsFound(singles: readonly Candidate[], pairs: readonly Candidate[]): ReadonlySet<Candidate> {
  const members = singles.map((single) =>
    pairs.filter(({ dimension, value }) =>
      value.some(({ key }, part) => `${dimension.parts[part] ?? ''} ${key}` === keyOf(single)),
    ),
  );
  const selections = twoLevelSelection(
    singles.map(({ test }, place) => ({
      pValue: test.pValue,
      members: elementAt(members, place).map((pair) => pair.test.pValue),
    })),
    TREND_LEVEL,
  );
  return new Set(
    selections.flatMap(({ rejected }, place) =>
      elementAt(members, place).filter((_, member) => rejected[member] === true),
    ),
  );
}

function trendOf(
  input: TrendsInput,
  { dimension, value, code, counts, cells, test }: Candidate,
  isFound: boolean,
  adjusted: number | null,
): Trend {
  const change = changeOf(test, cells, input);
  return {
    dimension: dimension.name,
    value,
    verdict: verdictOf(isFound, test, change.interval),
    test,
    adjusted,
    change,
    byEvent: usageOverEvents(input, counts, code),
    users: usersOf(cells),
    uses: counts.uses(code),
  };
}

function cellsOf(counts: UsageCounts, players: number, code: number): TrendCell[] {
  const cells: TrendCell[] = [];
  for (let event = 0; event < counts.events; event += 1) {
    for (let player = 0; player < players; player += 1) {
      const trials = counts.known(event, player);
      if (trials === 0) continue;
      cells.push({ cluster: player, score: event, successes: counts.count(event, player, code), trials });
    }
  }
  return cells;
}

function usersOf(cells: readonly TrendCell[]): number {
  return new Set(cells.filter(({ successes }) => successes > 0).map(({ cluster }) => cluster)).size;
}

function isTestable(cells: readonly TrendCell[], uses: number): boolean {
  const trials = cells.reduce((sum, cell) => sum + cell.trials, 0);
  const events = new Set(cells.map(({ score }) => score)).size;
  return uses >= FEWEST_USES && uses < trials && events >= 2 && usersOf(cells) >= FEWEST_USERS;
}

/** Along the trend, with Student's t on one degree of freedom less than there are players. */
function changeOf(
  { slope, standardError }: ClusteredTrend,
  cells: readonly TrendCell[],
  { confidence }: TrendsInput,
): Trend['change'] {
  const scores = cells.map(({ score }) => score);
  const steps = Math.max(...scores) - Math.min(...scores);
  const clusters = new Set(cells.map(({ cluster }) => cluster)).size;
  const half = studentQuantile(confidence, Math.max(1, clusters - 1)) * standardError * steps;
  const share = slope * steps;
  return { share, interval: { lower: share - half, upper: share + half } };
}

function verdictOf(isFound: boolean, { z }: ClusteredTrend, { lower, upper }: Interval): TrendVerdict {
  if (isFound) return z > 0 ? 'rising' : 'falling';
  return lower > -STEADY_POINTS && upper < STEADY_POINTS ? 'steady' : 'open';
}

function bySureness(one: Trend, other: Trend): number {
  const isFound = ({ verdict }: Trend): number => (verdict === 'rising' ? 0 : verdict === 'falling' ? 1 : 2);
  const bySize = Math.abs(other.change.share) - Math.abs(one.change.share);
  return isFound(one) - isFound(other) || (isFound(one) < 2 ? one.test.pValue - other.test.pValue : 0) || bySize;
}
