import type { FilmScope } from './film-scope.js';
import type { ChartedPlay, PlayValue } from './play-columns.js';
import type { PlayFieldName } from './play-fields.js';
import { coversPlay, placeOf } from './reconcile-scope.js';

/** What two charts are laid beside each other by. */
export type AlignedPlay = Pick<ChartedPlay, 'orderInGame' | 'offenseIsHome' | 'values'>;

export interface AlignedChart {
  /** By order in the game; where it stands still, the later ones go by their situation. */
  readonly plays: readonly AlignedPlay[];
  /** The parts of the film that its plays come from; a snap inside any of them would be there. */
  readonly scopes: readonly FilmScope[];
}

/** Places of the two charts' records of one snap. */
export type PlayPair = readonly [first: number, second: number];

/** What a pair costs for each fact in which it differs, and how far apart is still the same. */
const SITUATION: readonly (readonly [field: PlayFieldName, cost: number, tolerance: number])[] = [
  ['playType', 3, 0],
  ['quarter', 2, 0],
  ['down', 3, 0],
  // Graphics round, and charters read them at different moments.
  ['distance', 2, 1],
  ['yardsToGoal', 2, 1],
  ['snapSecond', 2, 5],
];
const OTHER_OFFENSE = 4;
const OTHER_ORDER = 1;
/** A fact that only one chart knows speaks a little less for a pair than one that both know. */
const UNKNOWN_SHARE = 1 / 16;
/** For a snap that one chart has and the other, whose scope covers it, has not. A pair costs at most two of these. */
const MISSING = 2.5;

const PLACED = SITUATION.map(([field, cost, tolerance]) => ({ place: placeOf(field), cost, tolerance }));

/**
 * Which plays of two charts of one game are the same snap.
 *
 * Where the orders of one chart are all among the other's, and no two plays of the same order contradict each other, the
 * order decides. Otherwise the charts are numbered differently, and the cheapest alignment that keeps both in their order is
 * taken (dynamic programming as in Needleman and Wunsch 1970, J. Mol. Biol. 48, 443-453). The costs are our own, common
 * sense and no source: a pair pays 4 where the sides with the ball differ, 3 for play type and down, 2 for quarter, for
 * distance and spot beyond a yard and for the second of the snap beyond five, a sixteenth of that where one of the two
 * does not say, and 1 where the orders differ; a play without a partner pays 2.5 if the other chart's scope covers it,
 * else nothing. Among equals a pair is preferred, then leaving out of the first. Deterministic; time and room grow with
 * the product of the lengths.
 *
 * @returns pairs, rising in both
 */
export function alignPlays(first: AlignedChart, second: AlignedChart): readonly PlayPair[] {
  return alignByOrder(first.plays, second.plays) ?? alignBySituation(first, second);
}

function alignByOrder(first: readonly AlignedPlay[], second: readonly AlignedPlay[]): readonly PlayPair[] | null {
  const places = new Map<number, number>();
  first.forEach(({ orderInGame }, place) => {
    if (!places.has(orderInGame)) places.set(orderInGame, place);
  });
  const pairs: PlayPair[] = [];
  for (const [place, play] of second.entries()) {
    const partner = places.get(play.orderInGame);
    if (partner === undefined) continue;
    if (contradicts(first[partner], play)) return null;
    pairs.push([partner, place]);
  }
  return pairs.length === Math.min(first.length, second.length) ? pairs : null;
}

function contradicts(one: AlignedPlay | undefined, other: AlignedPlay): boolean {
  if (one?.offenseIsHome !== other.offenseIsHome) return true;
  return PLACED.some(({ place, tolerance }) => differ(one.values[place], other.values[place], tolerance) === true);
}

/** Whether two values differ; null where one is unknown. */
function differ(one: PlayValue | undefined, other: PlayValue | undefined, tolerance: number): boolean | null {
  if (typeof one !== 'number' || typeof other !== 'number') return null;
  return Math.abs(one - other) > tolerance;
}

function pairCost(one: AlignedPlay, other: AlignedPlay): number {
  let cost = one.orderInGame === other.orderInGame ? 0 : OTHER_ORDER;
  if (one.offenseIsHome !== other.offenseIsHome) cost += OTHER_OFFENSE;
  for (const { place, cost: full, tolerance } of PLACED) {
    const different = differ(one.values[place], other.values[place], tolerance);
    if (different === true) cost += full;
    else if (different === null) cost += full * UNKNOWN_SHARE;
  }
  return cost;
}

const PAIR = 0;
const SKIP_FIRST = 1;
const SKIP_SECOND = 2;

function alignBySituation(first: AlignedChart, second: AlignedChart): readonly PlayPair[] {
  const missingInSecond = first.plays.map((play) => missingCost(play, second.scopes));
  const missingInFirst = second.plays.map((play) => missingCost(play, first.scopes));
  const width = second.plays.length + 1;
  const steps = new Uint8Array((first.plays.length + 1) * width);
  let above = new Float64Array(width);
  missingInFirst.forEach((cost, j) => {
    above[j + 1] = (above[j] ?? 0) + cost;
    steps[j + 1] = SKIP_SECOND;
  });
  first.plays.forEach((play, i) => {
    const row = new Float64Array(width);
    const skip = missingInSecond[i] ?? 0;
    row[0] = (above[0] ?? 0) + skip;
    steps[(i + 1) * width] = SKIP_FIRST;
    second.plays.forEach((other, j) => {
      let best = (above[j] ?? 0) + pairCost(play, other);
      let step = PAIR;
      const withoutFirst = (above[j + 1] ?? 0) + skip;
      if (withoutFirst < best) {
        best = withoutFirst;
        step = SKIP_FIRST;
      }
      const withoutSecond = (row[j] ?? 0) + (missingInFirst[j] ?? 0);
      if (withoutSecond < best) {
        best = withoutSecond;
        step = SKIP_SECOND;
      }
      row[j + 1] = best;
      steps[(i + 1) * width + j + 1] = step;
    });
    above = row;
  });
  return pairsOnPath(steps, first.plays.length, second.plays.length);
}

function missingCost(play: AlignedPlay, scopes: readonly FilmScope[]): number {
  return scopes.some((scope) => coversPlay(scope, play)) ? MISSING : 0;
}

function pairsOnPath(steps: Uint8Array, firstLength: number, secondLength: number): readonly PlayPair[] {
  const pairs: PlayPair[] = [];
  let i = firstLength;
  let j = secondLength;
  while (i > 0 || j > 0) {
    const step = steps[i * (secondLength + 1) + j];
    if (step === PAIR) pairs.push([i - 1, j - 1]);
    if (step !== SKIP_SECOND) i -= 1;
    if (step !== SKIP_FIRST) j -= 1;
  }
  return pairs.reverse();
}
