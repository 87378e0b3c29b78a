import { elementAt } from '../statistics/element-at.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { planBracket, type BracketPlan } from './bracket-plan.js';
import type { BracketState } from './bracket-shape.js';
import { doubleElimination } from './double-elimination.js';
import { enterResult, type EnteredResult } from './enter-result.js';
import { emptyState, seatsOf } from './seats.js';
import { singleElimination } from './single-elimination.js';
import { swiss } from './swiss.js';
import { enterRandomly, isReady, lotsOf, randomBracket, wholeBelow } from './testing/random-brackets.js';

const HOME_WINS: EnteredResult = { winner: 'home', homeWins: 1, awayWins: 0, forfeited: false };
const AWAY_WINS: EnteredResult = { winner: 'away', homeWins: 0, awayWins: 1, forfeited: false };

function started(plan: BracketPlan): BracketState {
  const state = emptyState(plan);
  return { ...state, seats: seatsOf(plan, state, lotsOf(plan)) };
}

function played(plan: BracketPlan, results: readonly (readonly [number, EnteredResult])[]): BracketState {
  return results.reduce(
    (state, [match, result]) => enterResult(plan, state, lotsOf(plan), { match, result, drop: false }).state,
    started(plan),
  );
}

describe('a result', () => {
  const plan = planBracket(singleElimination(4, { thirdPlace: true }));
  const enter = (state: BracketState, match: number, result: EnteredResult, drop = false) =>
    enterResult(plan, state, lotsOf(plan), { match, result, drop });

  it('takes the winner on and the loser to the match for the third place', () => {
    const { state, moved } = enter(started(plan), 0, HOME_WINS);
    expect([...state.seats]).toEqual([0, 3, 1, 2, 0, -1, 3, -1]);
    expect(moved).toEqual([2, 3]);
  });

  it('when corrected takes others on, as long as they have not played', () => {
    const before = played(plan, [[0, HOME_WINS]]);
    const { state, dropped } = enter(before, 0, AWAY_WINS);
    expect([...state.seats]).toEqual([0, 3, 1, 2, 3, -1, 0, -1]);
    expect(dropped).toEqual([]);
  });

  it('is refused when its correction would break later results, and names them', () => {
    const before = played(plan, [
      [0, HOME_WINS],
      [1, HOME_WINS],
      [2, HOME_WINS],
    ]);
    expect(() => enter(before, 0, AWAY_WINS)).toThrow(
      expect.objectContaining({ code: 'bracket.result_breaks', details: { matches: [2] } }),
    );
    const { state, dropped } = enter(before, 0, AWAY_WINS, true);
    expect(dropped).toEqual([2]);
    expect([...state.winners]).toEqual([1, 0, -1, -1]);
  });

  it('may be corrected in its games alone while the winner stays', () => {
    const bestOfThree = planBracket(singleElimination(4, { bestOf: () => 3 }));
    const two: EnteredResult = { winner: 'home', homeWins: 2, awayWins: 0, forfeited: false };
    const before = played(bestOfThree, [
      [0, two],
      [1, two],
      [2, two],
    ]);
    const { state, moved } = enterResult(bestOfThree, before, lotsOf(bestOfThree), {
      match: 0,
      result: { ...two, awayWins: 1 },
      drop: false,
    });
    expect(moved).toEqual([]);
    expect(state.awayWins[0]).toBe(1);
  });

  it('can be taken back', () => {
    const before = played(plan, [[0, HOME_WINS]]);
    const { state } = enter(before, 0, { winner: null, homeWins: 0, awayWins: 0, forfeited: false });
    expect(state).toEqual(started(plan));
  });

  it('is refused while a player is not known, and where wins and winner do not fit', () => {
    expect(() => enter(started(plan), 2, HOME_WINS)).toThrow(
      expect.objectContaining({ code: 'bracket.match_not_ready' }),
    );
    const refused: EnteredResult[] = [
      { ...HOME_WINS, winner: 'away' },
      { ...HOME_WINS, homeWins: 2 },
      { ...HOME_WINS, homeWins: -1 },
      { ...HOME_WINS, awayWins: 1 },
      { winner: null, homeWins: 1, awayWins: 0, forfeited: false },
      { winner: null, homeWins: 0, awayWins: 0, forfeited: true },
    ];
    for (const result of refused) {
      expect(() => enter(started(plan), 0, result)).toThrow(
        expect.objectContaining({ code: 'bracket.result_invalid' }),
      );
    }
  });

  it('of a second final falls when a correction makes it needless', () => {
    const double = planBracket(doubleElimination(2, { secondFinal: true }));
    const before = played(double, [
      [0, HOME_WINS],
      [1, AWAY_WINS],
      [2, HOME_WINS],
    ]);
    expect(() => enterResult(double, before, [0, 1], { match: 1, result: HOME_WINS, drop: false })).toThrow(
      expect.objectContaining({ code: 'bracket.result_breaks', details: { matches: [2] } }),
    );
  });

  it('leaves a Swiss round that has begun as it was paired', () => {
    const rounds = planBracket(swiss(4, 2));
    const before = played(rounds, [
      [0, HOME_WINS],
      [1, HOME_WINS],
      [2, HOME_WINS],
    ]);
    const corrected = enterResult(rounds, before, lotsOf(rounds), { match: 0, result: AWAY_WINS, drop: false });
    expect(corrected.state.seats).toEqual(before.seats);
    const early = played(rounds, [
      [0, HOME_WINS],
      [1, HOME_WINS],
    ]);
    expect([...early.seats.slice(4)]).toEqual([0, 1, 2, 3]);
    const paired = enterResult(rounds, early, lotsOf(rounds), { match: 0, result: AWAY_WINS, drop: false });
    expect([...paired.state.seats.slice(4)]).toEqual([1, 2, 0, 3]);
  });
});

describe('10,000 random brackets with random results and corrections', () => {
  it('keep every promise of a bracket after every step', () => {
    const random = seededRandom(6);
    const seen = { corrections: 0, refused: 0, dropped: 0, finished: 0 };
    for (let round = 0; round < 10_000; round += 1) {
      const plan = planBracket(randomBracket(random));
      let state = started(plan);
      const matches = [...plan.bracket.matches.keys()];
      for (let step = 0; step < 3 * matches.length; step += 1) {
        const open = matches.filter((match) => isReady(state, match));
        const over = matches.filter((match) => elementAt(state.winners, match) >= 0);
        if (open.length === 0) break;
        const correct = over.length > 0 && random() < 0.15;
        const choice = correct ? over : open;
        const match = elementAt(choice, wholeBelow(random, choice.length));
        const drop = random() < 0.5;
        try {
          const entered = enterRandomly(plan, state, match, random, drop);
          ({ state } = entered);
          seen.dropped += entered.dropped.length;
        } catch (error) {
          // Only a correction may be refused, and only when it was not to drop anything.
          if (!correct || drop) throw error;
          expect(error).toMatchObject({ code: 'bracket.result_breaks' });
          seen.refused += 1;
        }
        if (correct) seen.corrections += 1;
      }
      const broken = whatIsBroken(plan, state);
      if (broken !== null) throw new Error(`bracket ${round}: ${broken}`);
      if (!matches.some((match) => isReady(state, match))) seen.finished += 1;
    }
    // The fuzz has gone through all that it is about.
    expect(seen.corrections).toBeGreaterThan(5_000);
    expect(seen.refused).toBeGreaterThan(500);
    expect(seen.dropped).toBeGreaterThan(500);
    expect(seen.finished).toBeGreaterThan(9_000);
  });
});

/** What does not hold that must, in words, or null. */
function whatIsBroken(plan: BracketPlan, state: BracketState): string | null {
  const { bracket, titleMatch } = plan;
  if (seatsOf(plan, state, lotsOf(plan)).join() !== state.seats.join()) return 'seats do not follow from the results';
  const losses = new Array<number>(bracket.entrants).fill(0);
  let playedMatches = 0;
  for (const [match, { stage, decider }] of bracket.matches.entries()) {
    const [home, away] = [elementAt(state.seats, 2 * match), elementAt(state.seats, 2 * match + 1)];
    if (home >= 0 && home === away) return `match ${match} is against oneself`;
    const winner = elementAt(state.winners, match);
    if (winner < 0) continue;
    playedMatches += 1;
    if (home < 0 || away < 0) return `match ${match} is over without both players`;
    const loser = winner === 0 ? away : home;
    if (['main', 'losers', 'final'].includes(stage)) losses[loser] = elementAt(losses, loser) + 1;
    if (decider === true && elementAt(state.winners, match - 1) !== 1) return 'a second final was played without need';
  }
  const double = bracket.matches.some(({ stage }) => stage === 'final');
  if (losses.some((count) => count > (double ? 2 : 1))) return 'somebody lost too often';
  const finished = !bracket.matches.some((_, match) => isReady(state, match));
  if (!finished) return null;
  if (double && ![2 * bracket.entrants - 2, 2 * bracket.entrants - 1].includes(playedMatches)) {
    return `${playedMatches} matches of a double elimination of ${bracket.entrants}`;
  }
  const needed = bracket.matches.filter((_, match) => elementAt(state.seats, 2 * match) >= 0).length;
  if (playedMatches !== needed) return 'it ends with a match that was not played';
  if (titleMatch === null) return null;
  // Whoever came into the bracket and did not win it lost as often as it takes to be out.
  const inBracket = new Set<number>();
  for (const [match, { stage }] of bracket.matches.entries()) {
    if (stage !== 'main') continue;
    for (const side of [0, 1]) inBracket.add(elementAt(state.seats, 2 * match + side));
  }
  const last = elementAt(state.winners, titleMatch) >= 0 ? titleMatch : titleMatch - 1;
  const champion = elementAt(state.seats, 2 * last + elementAt(state.winners, last));
  const secondChance = double && !(bracket.matches.length === 2 * bracket.entrants - 2);
  for (const entrant of inBracket) {
    const lost = elementAt(losses, entrant);
    if (entrant === champion ? lost > (double ? 1 : 0) : lost < (secondChance ? 2 : 1)) {
      return `entrant ${entrant} lost ${lost} times`;
    }
  }
  return null;
}
