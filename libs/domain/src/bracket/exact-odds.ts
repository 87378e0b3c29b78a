import { matchProbability } from '../ratings/win-probability.js';
import { elementAt } from '../statistics/element-at.js';
import type { BracketPlan } from './bracket-plan.js';
import { HOME, UNKNOWN, type Bracket, type BracketState } from './bracket-shape.js';
import { emptyOdds, type MeetingOdds } from './odds-shape.js';
import type { WinChances } from './win-chances.js';

/** Whether the odds of a bracket can be worked out exactly: single elimination, with or without a third place. */
export function isSingleElimination({ matches }: Bracket): boolean {
  return matches.every(({ stage, home, away }) => {
    const from = [home.from, away.from];
    if (stage === 'main') return from.every((source) => source === 'entrant' || source === 'winner');
    return stage === 'third place' && from.every((source) => source === 'loser');
  });
}

/**
 * Exact odds of single elimination. Parts of the bracket that meet in a match are disjoint, so who comes out of them is
 * independent, and each pair of entrants meets in one match at most: all in all n (n - 1) / 2 products. What is over is
 * certain; the wins of a match under way count.
 *
 * @param plan    - of a bracket for which `isSingleElimination` holds, up to 4,096 entrants
 * @param chances - of single games
 * @param player  - the entrant whose meetings are asked for, or null
 * @see Edwards (1991), The combinatorial theory of single-elimination tournaments; David (1959), Biometrika 46, 139–149
 */
export function exactOdds(
  plan: BracketPlan,
  state: BracketState,
  chances: WinChances,
  player: number | null,
): MeetingOdds {
  const { bracket } = plan;
  const { entrants } = bracket;
  const { rounds, roundOf } = plan.columns;
  const odds = emptyOdds(entrants, rounds, null);
  const { leaves, spans } = leavesOf(plan);
  const placeOf = new Int32Array(entrants).fill(UNKNOWN);
  for (let place = 0; place < leaves.length; place += 1) placeOf[elementAt(leaves, place)] = place;
  const asked = player === null ? UNKNOWN : elementAt(placeOf, player);
  /** By place: probability of still being in, after the matches done so far. */
  const inside = new Float64Array(leaves.length).fill(1);
  const settling = {
    inside,
    awayWon: new Float64Array(leaves.length),
    placeOf,
    game: inOrder(chances, leaves),
    plan,
    state,
  };
  const losers = new Map<number, Losers>();

  for (const span of spans) {
    const { match, low, middle, high } = span;
    const round = elementAt(roundOf, match);
    const row = round * entrants;
    for (let place = low; place < high; place += 1) odds.plays[row + (leaves[place] ?? 0)] = inside[place] ?? 0;
    if (asked >= low && asked < high) {
      const [from, to] = asked < middle ? [middle, high] : [low, middle];
      for (let place = from; place < to; place += 1) {
        addMeeting(odds, round, elementAt(leaves, place), elementAt(inside, asked) * elementAt(inside, place));
      }
    }
    settle(span, settling);
    // Who loses on the way to the third place has one more match to play.
    const out = elementAt(plan.loserTo, match) === UNKNOWN ? null : new Float64Array(high - low);
    if (out !== null) losers.set(match, { low, out });
    for (let place = low; place < high; place += 1) {
      const cell = row + (leaves[place] ?? 0);
      const probability = (odds.plays[cell] ?? 0) - (inside[place] ?? 0);
      if (out === null) odds.exits[cell] = probability;
      else out[place - low] = probability;
    }
  }
  for (let place = 0; place < leaves.length; place += 1) {
    odds.title[elementAt(leaves, place)] = elementAt(inside, place);
  }

  for (const [match, { home, away }] of bracket.matches.entries()) {
    if (home.from !== 'loser' || away.from !== 'loser') continue;
    const sides = [losers.get(home.match), losers.get(away.match)] as const;
    thirdPlace(odds, elementAt(roundOf, match), leaves, sides, asked);
    thirdPlace(odds, elementAt(roundOf, match), leaves, [sides[1], sides[0]], asked);
  }
  return odds;
}

/** Who loses a match, by place from its first one. */
interface Losers {
  readonly low: number;
  readonly out: Float64Array;
}

/** One side of the match for the third place: its players, and whom the player asked for meets there. */
function thirdPlace(
  odds: MeetingOdds,
  round: number,
  leaves: Int32Array,
  [own, other]: readonly [Losers | undefined, Losers | undefined],
  asked: number,
): void {
  if (own === undefined || other === undefined) return;
  for (const [at, probability] of own.out.entries()) {
    const cell = round * odds.entrants + elementAt(leaves, own.low + at);
    odds.plays[cell] = probability;
    odds.exits[cell] = probability;
  }
  const probability = own.out[asked - own.low];
  if (probability === undefined) return;
  for (const [at, there] of other.out.entries()) {
    addMeeting(odds, round, elementAt(leaves, other.low + at), probability * there);
  }
}

function addMeeting(odds: MeetingOdds, round: number, opponent: number, probability: number): void {
  const cell = round * odds.entrants + opponent;
  odds.meets[cell] = elementAt(odds.meets, cell) + probability;
  odds.meetsAtAll[opponent] = elementAt(odds.meetsAtAll, opponent) + probability;
}

interface Span {
  readonly match: number;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

interface Settling {
  /** By place, the probability of being in the match, then of winning it. */
  readonly inside: Float64Array;
  /** By place on the away side, what is won when in the match: room to work in. */
  readonly awayWon: Float64Array;
  readonly placeOf: Int32Array;
  /** By place, who beats whom. */
  readonly game: Float64Array;
  readonly plan: BracketPlan;
  readonly state: BracketState;
}

/** From the probabilities of being in a match to those of winning it, in place. */
function settle(span: Span, settling: Settling): void {
  const { match, low, middle, high } = span;
  const { inside, awayWon, placeOf, plan, state } = settling;
  const winner = elementAt(state.winners, match);
  if (winner !== UNKNOWN) {
    const entrant = elementAt(state.seats, 2 * match + (winner === HOME ? 0 : 1));
    inside.fill(0, low, high);
    inside[elementAt(placeOf, entrant)] = 1;
    return;
  }
  const { bestOf } = elementAt(plan.bracket.matches, match);
  const [homeWins, awayWins] = [elementAt(state.homeWins, match), elementAt(state.awayWins, match)];
  awayWon.fill(0, middle, high);
  // A match of one game, which nearly all are, is its game: its loop does nothing else.
  if (bestOf <= 2 && homeWins + awayWins === 0) settleGames(span, settling);
  else {
    settleMatches(span, settling, (game) => matchProbability(game, bestOf, homeWins, awayWins));
  }
  for (let other = middle; other < high; other += 1) inside[other] = (inside[other] ?? 0) * (awayWon[other] ?? 0);
}

function settleGames({ low, middle, high }: Span, { inside, awayWon, game }: Settling): void {
  const places = inside.length;
  // Two rows at once: a sum of products waits for its last addition, and two sums wait together.
  for (let place = low; place < middle; place += 2) {
    const next = Math.min(place + 1, middle - 1);
    const here = inside[place] ?? 0;
    const there = next === place ? 0 : (inside[next] ?? 0);
    if (here === 0 && there === 0) continue;
    const [row, nextRow] = [place * places, next * places];
    let won = 0;
    let nextWon = 0;
    for (let other = middle; other < high; other += 1) {
      const probability = game[row + other] ?? 0;
      const nextProbability = game[nextRow + other] ?? 0;
      const opponent = inside[other] ?? 0;
      won += opponent * probability;
      nextWon += opponent * nextProbability;
      awayWon[other] = (awayWon[other] ?? 0) + here * (1 - probability) + there * (1 - nextProbability);
    }
    if (next !== place) inside[next] = there * nextWon;
    inside[place] = here * won;
  }
}

function settleMatches(
  { low, middle, high }: Span,
  { inside, awayWon, game }: Settling,
  matchOf: (game: number) => number,
): void {
  const places = inside.length;
  for (let place = low; place < middle; place += 1) {
    const here = elementAt(inside, place);
    if (here === 0) continue;
    const row = place * places;
    let won = 0;
    for (let other = middle; other < high; other += 1) {
      const probability = matchOf(elementAt(game, row + other));
      won += elementAt(inside, other) * probability;
      awayWon[other] = elementAt(awayWon, other) + here * (1 - probability);
    }
    inside[place] = here * won;
  }
}

/** The chances with rows and columns by place; as they are where they were made in `bracketOrder`. */
function inOrder({ entrants, game, rowOf }: WinChances, leaves: Int32Array): Float64Array {
  if (leaves.every((entrant, place) => rowOf[entrant] === place)) return game;
  const ordered = new Float64Array(leaves.length ** 2);
  for (const [place, entrant] of leaves.entries()) {
    const row = elementAt(rowOf, entrant) * entrants;
    for (const [other, opponent] of leaves.entries()) {
      ordered[place * leaves.length + other] = elementAt(game, row + elementAt(rowOf, opponent));
    }
  }
  return ordered;
}

/** Entrants as the bracket holds them from top to bottom: neighbours meet early. */
export function bracketOrder(plan: BracketPlan): Int32Array {
  return leavesOf(plan).leaves;
}

/** The entrants in the order in which the bracket holds them, and for each match, feeders first, where its sides lie. */
function leavesOf({ bracket, titleMatch }: BracketPlan): {
  readonly leaves: Int32Array;
  readonly spans: readonly Span[];
} {
  const leaves: number[] = [];
  const spans: Span[] = [];
  const walk = (match: number): void => {
    const { home, away } = elementAt(bracket.matches, match);
    const low = leaves.length;
    enter(home);
    const middle = leaves.length;
    enter(away);
    spans.push({ match, low, middle, high: leaves.length });
  };
  const enter = (source: Bracket['matches'][number]['home']): void => {
    if (source.from === 'entrant') leaves.push(source.entrant);
    else if (source.from === 'winner') walk(source.match);
  };
  if (titleMatch !== null) walk(titleMatch);
  return { leaves: Int32Array.from(leaves), spans };
}
