import { assertCount } from '../../statistics/guards.js';
import type { Interval } from '../../statistics/interval.js';
import type { RandomSource } from '../../statistics/seeded-random.js';
import { shuffled } from '../../statistics/shuffle.js';
import { subsetCount, subsets } from '../../statistics/subsets.js';
import { twoLevelSelection } from '../../statistics/two-level-selection.js';
import { DIMENSION_LABELS, type DimensionName, type DimensionValue } from '../dimension-names.js';
import { readDimension } from '../dimensions.js';
import { Evidence } from '../evidence.js';
import { allPlaces, type AskedPlays } from '../decisions/asked-plays.js';
import { countedShare, differenceOf, type CountedShare } from '../decisions/counted-share.js';
import { addCounts, countGames, totalOf, type GameCounts } from './game-counts.js';
import { EARLIER, RECENT, type Periods } from './periods.js';

export interface DriftSettings {
  /** What lies in one period: whole games, or a half of every game. Decides what a permutation moves. */
  readonly unit: 'game' | 'half';
  /**
   * ≥ 1. Where whole games can be told apart in no more ways than this, all of them are gone through; else so many are
   * drawn, and twenty times as many of a mix that might then be found, since a share has to reach the level divided by
   * dimensions and values, which few draws cannot show whatever it did.
   */
  readonly permutations: number;
  /** False discovery rate in (0, 1), over dimensions and then over values inside those that drifted. */
  readonly level: number;
}

/**
 * Where nobody drifted every find is false, and their rate is the level itself: five percent keeps the upper 95 % Monte
 * Carlo bound below 12 %, as for tells.
 */
export const DEFAULT_DRIFT: Omit<DriftSettings, 'unit'> = { permutations: 999, level: 0.05 };

export interface DriftedShare {
  readonly value: DimensionValue;
  readonly earlier: CountedShare;
  readonly recent: CountedShare;
  /** Recent share less the earlier one, Newcombe's interval, which takes plays for independent. */
  readonly difference: Interval | null;
  /** Two-sided, from orders that move whole games; judge by this one. */
  readonly pValue: number;
  /** Whether it stands once all shares looked at are taken together. */
  readonly moved: boolean;
}

export interface DimensionDrift {
  readonly dimension: DimensionName;
  readonly label: string;
  /** Games with known plays in each period; in one game's halves the same game counts in both. */
  readonly earlierGames: number;
  readonly recentGames: number;
  /** Bits in [0, 1]; grows with few plays even where nothing moved, so read it with its p-value. */
  readonly divergence: number;
  readonly pValue: number;
  readonly drifted: boolean;
  /** Largest difference first. */
  readonly shares: readonly DriftedShare[];
}

/**
 * Did the player change? For each dimension how far the mixes of two periods lie apart, how often chance does as well
 * when whole games (or the two halves of each game) change places, and which shares moved. Plays of one game share its
 * plan, so games are what is shuffled; with two against two games the smallest possible p-value is 1/3, and nothing can
 * stand. Six against six games can be told apart in 924 ways, so that the clearest move has a p-value of 1/462, hardly
 * below what a share must reach among four mixes: drawn orders put it above by chance in one case of four, which is why
 * all of them are gone through where they are few.
 *
 * @param asked      - the player's plays; the field takes no part here, see `changeOfVersion`
 * @param dimensions - those to look at; one without known plays in both periods is left out
 * @param periods    - one entry a play; with unit `game` each game in one period only
 * @param random     - uniform source
 * @param among      - ascending places to look at, such as those of one situation; all when left out
 * @throws DomainError `stats.invalid_count`, `stats.invalid_probability`
 * @see Lin (1991), IEEE Trans. Inf. Theory 37, 145–151; Phipson & Smyth (2010), Stat. Appl. Genet. Mol. Biol. 9,
 *   article 39; Besag & Clifford (1991), Biometrika 78, 301–304 (more draws only where they can matter); Newcombe (1998), Stat. Med. 17, 873–890; Benjamini & Bogomolov (2014), J. R. Stat. Soc. B 76, 297–318
 */
export function drift(
  asked: AskedPlays,
  dimensions: readonly DimensionName[],
  periods: Periods,
  settings: DriftSettings,
  random: RandomSource,
  among: Int32Array = allPlaces(asked.facts),
): DimensionDrift[] {
  assertCount('permutations', settings.permutations, { min: 1 });
  const { facts, vocabulary, confidence } = asked;
  const compared = dimensions.flatMap((dimension) => {
    const read = readDimension(dimension, facts, vocabulary);
    const games = countGames(facts, read, periods, among);
    const test = permuted(games, read.values.length, settings, random);
    return test === null ? [] : [{ dimension, read, games, test }];
  });
  const selected = twoLevelSelection(
    compared.map(({ test }) => ({ pValue: test.pValue, members: test.ofValue })),
    settings.level,
  );
  return compared.map(({ dimension, read, games, test }, place): DimensionDrift => {
    const share = (code: number, period: number, counts: Float64Array): CountedShare => {
      const belongs = (play: number): boolean =>
        periods[play] === period && read.codes[play] === code && facts.counts[play] === 1;
      const evidence = new Evidence(facts.plays, among, belongs);
      return countedShare({ count: counts[code] ?? 0, known: totalOf(counts) }, null, confidence, evidence);
    };
    const shares = read.values.flatMap((value, code): DriftedShare[] => {
      const [earlier, recent] = [share(code, EARLIER, test.earlier), share(code, RECENT, test.recent)];
      if (earlier.count + recent.count === 0) return [];
      const moved = selected[place]?.rejected[code] === true;
      const difference = differenceOf(recent, earlier, confidence);
      return [{ value, earlier, recent, difference, pValue: test.ofValue[code] ?? 1, moved }];
    });
    return {
      dimension,
      label: DIMENSION_LABELS[dimension],
      earlierGames: games.filter((game) => totalOf(game.earlier) > 0).length,
      recentGames: games.filter((game) => totalOf(game.recent) > 0).length,
      divergence: test.divergence,
      pValue: test.pValue,
      drifted: selected[place]?.selected === true,
      shares: shares.sort((first, second) => distance(second) - distance(first)),
    };
  });
}

function distance({ earlier, recent }: DriftedShare): number {
  return Math.abs((recent.raw?.share ?? 0) - (earlier.raw?.share ?? 0));
}

interface PermutedDrift {
  readonly earlier: Float64Array;
  readonly recent: Float64Array;
  readonly divergence: number;
  readonly pValue: number;
  readonly ofValue: number[];
}

/** Times as many orders are drawn of a mix that might be found. */
const MORE_DRAWS = 20;

// Two orders of the same sum differ by rounding only.
const ROUNDING = 1e-12;

function permuted(
  games: readonly GameCounts[],
  values: number,
  { unit, permutations, level }: DriftSettings,
  random: RandomSource,
): PermutedDrift | null {
  const earlier = addCounts(
    games.map((game) => game.earlier),
    values,
  );
  const recent = addCounts(
    games.map((game) => game.recent),
    values,
  );
  if (totalOf(earlier) === 0 || totalOf(recent) === 0) return null;
  const divergence = divergenceOf(earlier, recent);
  const distances = differences(earlier, recent);
  let reached = 0;
  const reachedBy = new Array<number>(values).fill(0);
  const { orders, next } =
    unit === 'game' ? byGames(games, values, permutations, random) : byHalves(games, values, random);
  let tried = orders ?? permutations;
  for (let permutation = 0; permutation < tried; permutation += 1) {
    const [first, second] = next(permutation);
    // Games of unequal length can leave a period empty only where they have no known plays; that is no distance.
    if (totalOf(first) > 0 && totalOf(second) > 0) {
      if (divergenceOf(first, second) >= divergence - ROUNDING) reached += 1;
      differences(first, second).forEach((value, code) => {
        if (value >= (distances[code] ?? 0) - ROUNDING) reachedBy[code] = (reachedBy[code] ?? 0) + 1;
      });
    }
    // What has not reached the level by itself cannot be found among others either, however often it is tried.
    const isAllDrawn = orders === null && permutation === permutations - 1;
    if (isAllDrawn && 1 + reached <= level * (1 + permutations)) tried = MORE_DRAWS * permutations;
  }
  // Among all orders is the one that was played; among drawn ones it has to be counted in.
  const pValueOf = (count: number): number => (orders === null ? (1 + count) / (1 + tried) : count / tried);
  return { earlier, recent, divergence, pValue: pValueOf(reached), ofValue: reachedBy.map(pValueOf) };
}

type TwoPeriods = readonly [Float64Array, Float64Array];

interface Orders {
  /** How many there are in all, where all of them are gone through; null where they are drawn. */
  readonly orders: number | null;
  readonly next: (place: number) => TwoPeriods;
}

/** Each game's plays go to one of the periods, as many games to each as there were. */
function byGames(games: readonly GameCounts[], values: number, most: number, random: RandomSource): Orders {
  const parts = games.flatMap((game) => [
    ...(totalOf(game.earlier) > 0 ? [{ counts: game.earlier, isEarlier: true }] : []),
    ...(totalOf(game.recent) > 0 ? [{ counts: game.recent, isEarlier: false }] : []),
  ]);
  const cut = parts.filter(({ isEarlier }) => isEarlier).length;
  const counts = parts.map((part) => part.counts);
  if (subsetCount(parts.length, cut) > most) {
    const next = (): TwoPeriods => {
      const order = shuffled(random, counts);
      return [addCounts(order.slice(0, cut), values), addCounts(order.slice(cut), values)];
    };
    return { orders: null, next };
  }
  const all = subsets(parts.length, cut).map((places) => new Set(places));
  const next = (place: number): TwoPeriods => {
    const isEarlier = (part: number): boolean => all[place]?.has(part) === true;
    return [
      addCounts(
        counts.filter((_, part) => isEarlier(part)),
        values,
      ),
      addCounts(
        counts.filter((_, part) => !isEarlier(part)),
        values,
      ),
    ];
  };
  return { orders: all.length, next };
}

/** Each game's two halves change places or do not. */
function byHalves(games: readonly GameCounts[], values: number, random: RandomSource): Orders {
  const next = (): TwoPeriods => {
    const swaps = games.map(() => random() < 0.5);
    return [
      addCounts(
        games.map((game, place) => (swaps[place] === true ? game.recent : game.earlier)),
        values,
      ),
      addCounts(
        games.map((game, place) => (swaps[place] === true ? game.earlier : game.recent)),
        values,
      ),
    ];
  };
  return { orders: null, next };
}

// The statistic of every permutation: the library's function on shares, without its guards and arrays.
function divergenceOf(first: Float64Array, second: Float64Array): number {
  const [ofFirst, ofSecond] = [totalOf(first), totalOf(second)];
  let bits = 0;
  for (let value = 0; value < first.length; value += 1) {
    const share = (first[value] ?? 0) / ofFirst;
    const other = (second[value] ?? 0) / ofSecond;
    const middle = (share + other) / 2;
    if (share > 0) bits += (share / 2) * Math.log2(share / middle);
    if (other > 0) bits += (other / 2) * Math.log2(other / middle);
  }
  return Math.min(1, Math.max(0, bits));
}

function differences(first: Float64Array, second: Float64Array): Float64Array {
  const [ofFirst, ofSecond] = [totalOf(first), totalOf(second)];
  return first.map((count, value) => Math.abs(count / ofFirst - (second[value] ?? 0) / ofSecond));
}
