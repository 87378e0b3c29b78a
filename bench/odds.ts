import { planBracket, type BracketPlan } from '#domain/bracket/bracket-plan.js';
import type { BracketState } from '#domain/bracket/bracket-shape.js';
import { doubleElimination } from '#domain/bracket/double-elimination.js';
import { bracketOrder, exactOdds } from '#domain/bracket/exact-odds.js';
import { emptyState, seatsOf } from '#domain/bracket/seats.js';
import { simulatedOdds } from '#domain/bracket/simulated-odds.js';
import { singleElimination } from '#domain/bracket/single-elimination.js';
import { winChances, type WinChances } from '#domain/bracket/win-chances.js';
import { randomWords } from '#domain/statistics/random-words.js';
import { seededRandom } from '#domain/statistics/seeded-random.js';

const SEED = 6;
const MOST_RATIO = 2;
const EXACT_ENTRANTS = 1024;
const SIMULATED_ENTRANTS = 256;
const SIMULATED_EVENTS = 100_000;

/**
 * Meeting odds against a plain loop over typed arrays of as many match draws. Exact: a draw is one product for one pair of
 * entrants; the loop looks the pair's probability up in the same table and adds up what either side wins. Simulated: a draw
 * is one match; the loop takes one random word, looks up the probability of two entrants who are laid out beforehand, and
 * counts the winner.
 */
export function benchOdds(): Promise<boolean> {
  const exact = benchExact();
  const simulated = benchSimulated();
  return Promise.resolve(exact && simulated);
}

function benchExact(): boolean {
  const plan = planBracket(singleElimination(EXACT_ENTRANTS));
  const state = started(plan);
  const ratings = someRatings(EXACT_ENTRANTS);
  const order = bracketOrder(plan);
  const chances = winChances(ratings, [], order);
  const table = millisecondsOf(9, () => winChances(ratings, [], order));
  const inside = new Float64Array(EXACT_ENTRANTS).fill(1 / EXACT_ENTRANTS);
  const won = new Float64Array(EXACT_ENTRANTS);
  const { ours, plain } = byTurns(
    40,
    () => exactOdds(plan, state, chances, 0).title[0],
    () => {
      const { game } = chances;
      for (let one = 0; one < EXACT_ENTRANTS; one += 1) {
        const row = one * EXACT_ENTRANTS;
        const here = inside[one] ?? 0;
        let sum = 0;
        for (let other = one + 1; other < EXACT_ENTRANTS; other += 1) {
          const probability = game[row + other] ?? 0;
          sum += (inside[other] ?? 0) * probability;
          won[other] = (won[other] ?? 0) + here * (1 - probability);
        }
        won[one] = (won[one] ?? 0) + here * sum;
      }
      return won[0];
    },
  );
  const pairs = (EXACT_ENTRANTS * (EXACT_ENTRANTS - 1)) / 2;
  console.log(`exact odds of single elimination, ${EXACT_ENTRANTS} entrants: ${ours.toFixed(2)} ms`);
  console.log(
    `  a plain loop over the same ${pairs} pairs: ${plain.toFixed(2)} ms, ratio ${(ours / plain).toFixed(2)} (target ${MOST_RATIO})`,
  );
  console.log(
    `  the table of chances, built once from ratings: ${table.toFixed(1)} ms, ${(chances.game.byteLength / 1e6).toFixed(1)} MB ` +
      `(8 bytes a pair; ${((8 * 4096 ** 2) / 1e6).toFixed(0)} MB for 4096 entrants)`,
  );
  return ours / plain <= MOST_RATIO;
}

function benchSimulated(): boolean {
  const plan = planBracket(doubleElimination(SIMULATED_ENTRANTS, { secondFinal: true }));
  const state = started(plan);
  const chances = winChances(someRatings(SIMULATED_ENTRANTS));
  const matches = plan.bracket.matches.length;
  const layout = plainLayout(chances, matches);
  const before = process.memoryUsage().arrayBuffers;
  const { ours, plain } = byTurns(
    3,
    () =>
      simulatedOdds({ plan, state, chances, player: 0, simulation: { events: SIMULATED_EVENTS, seed: SEED } }).title[0],
    () => layout(SIMULATED_EVENTS),
  );
  const more = process.memoryUsage().arrayBuffers - before;
  const draws = matches * SIMULATED_EVENTS;
  console.log(
    `simulated odds of double elimination, ${SIMULATED_ENTRANTS} entrants, ${SIMULATED_EVENTS} events: ${ours.toFixed(0)} ms`,
  );
  console.log(
    `  a plain loop of as many match draws, ${draws}: ${plain.toFixed(0)} ms, ratio ${(ours / plain).toFixed(2)} (target ${MOST_RATIO})`,
  );
  console.log(
    `  typed arrays held more after all runs than before: ${(more / 1e6).toFixed(1)} MB, whatever the events`,
  );
  return ours / plain <= MOST_RATIO;
}

/** The draws alone: who meets whom is laid out beforehand, and nobody goes on to another match. */
function plainLayout({ entrants, game }: WinChances, matches: number): (events: number) => number | undefined {
  const random = seededRandom(SEED);
  const [home, away] = [new Int32Array(matches), new Int32Array(matches)];
  for (let match = 0; match < matches; match += 1) {
    home[match] = Math.floor(random() * entrants);
    away[match] = ((home[match] ?? 0) + 1 + Math.floor(random() * (entrants - 1))) % entrants;
  }
  const thresholds = game.map((probability) => 2 ** 32 * probability);
  const wins = new Float64Array(entrants);
  const words = new Uint32Array(4096);
  const fill = randomWords(SEED);
  return (events) => {
    let next = words.length;
    for (let event = 0; event < events; event += 1) {
      for (let match = 0; match < matches; match += 1) {
        if (next === words.length) {
          fill(words);
          next = 0;
        }
        const [one, other] = [home[match] ?? 0, away[match] ?? 0];
        const winner = (words[next] ?? 0) < (thresholds[one * entrants + other] ?? 0) ? one : other;
        wins[winner] = (wins[winner] ?? 0) + 1;
        next += 1;
      }
    }
    return wins[0];
  };
}

function started(plan: BracketPlan): BracketState {
  const state = emptyState(plan);
  return { ...state, seats: seatsOf(plan, state, [...Array(plan.bracket.entrants).keys()]) };
}

function someRatings(entrants: number): { readonly rating: number; readonly deviation: number }[] {
  const random = seededRandom(SEED);
  return Array.from({ length: entrants }, () => ({ rating: 1200 + 600 * random(), deviation: 50 + 150 * random() }));
}

/** The fastest of several, by turns, after as many rounds to warm up: a busy machine only ever adds. */
function byTurns(
  rounds: number,
  subject: () => unknown,
  baseline: () => unknown,
): { readonly ours: number; readonly plain: number } {
  const [ours, plain]: [number[], number[]] = [[], []];
  for (let round = 0; round < 2 * rounds; round += 1) {
    const [base, subjected] = [once(baseline), once(subject)];
    if (round < rounds) continue;
    plain.push(base);
    ours.push(subjected);
  }
  return { ours: Math.min(...ours), plain: Math.min(...plain) };
}

function millisecondsOf(rounds: number, work: () => unknown): number {
  return Math.min(...Array.from({ length: rounds }, () => once(work)));
}

function once(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}
