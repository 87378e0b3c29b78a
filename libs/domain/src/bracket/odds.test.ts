import fc from 'fast-check';
import { elementAt } from '../statistics/element-at.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { planBracket, type BracketPlan } from './bracket-plan.js';
import type { Bracket, BracketState } from './bracket-shape.js';
import { doubleElimination } from './double-elimination.js';
import { enterResult } from './enter-result.js';
import { exactOdds, isSingleElimination } from './exact-odds.js';
import { groupsIntoBracket } from './groups-into-bracket.js';
import { meetingOdds, standardError } from './meeting-odds.js';
import type { MeetingOdds } from './odds-shape.js';
import { roundRobin } from './round-robin.js';
import { emptyState, seatsOf } from './seats.js';
import { simulatedOdds } from './simulated-odds.js';
import { singleElimination } from './single-elimination.js';
import { swiss } from './swiss.js';
import { enterRandomly, isReady, lotsOf, randomBracket, wholeBelow } from './testing/random-brackets.js';
import { chancesBy, type WinChances } from './win-chances.js';

/** Bradley-Terry: the stronger wins in proportion to the strengths. */
const byStrength = (strengths: readonly number[]): WinChances =>
  chancesBy(
    strengths.length,
    (one, other) => elementAt(strengths, one) / (elementAt(strengths, one) + elementAt(strengths, other)),
  );

function started(plan: BracketPlan): BracketState {
  const state = emptyState(plan);
  return { ...state, seats: seatsOf(plan, state, lotsOf(plan)) };
}

function exact(bracket: Bracket, chances: WinChances, player: number | null = null): MeetingOdds {
  const plan = planBracket(bracket);
  return exactOdds(plan, started(plan), chances, player);
}

function simulated(bracket: Bracket, chances: WinChances, events: number, player: number | null = null): MeetingOdds {
  const plan = planBracket(bracket);
  return simulatedOdds({ plan, state: started(plan), chances, player, simulation: { events, seed: 7 } });
}

/** Single elimination whose first round holds these seeds in this order. */
function drawn(seeds: readonly number[]): Bracket {
  const bracket = singleElimination(seeds.length);
  let place = 0;
  return {
    ...bracket,
    matches: bracket.matches.map((match) =>
      match.round > 1
        ? match
        : {
            ...match,
            home: { from: 'entrant', entrant: elementAt(seeds, place++) - 1 },
            away: { from: 'entrant', entrant: elementAt(seeds, place++) - 1 },
          },
    ),
  };
}

function expectWithin(actual: ArrayLike<number>, expected: readonly number[], tolerance: number): void {
  for (const [at, value] of expected.entries()) {
    expect(Math.abs(elementAt(actual, at) - value)).toBeLessThanOrEqual(tolerance);
  }
}

const rowOf = ({ entrants }: MeetingOdds, table: Float64Array, round: number): Float64Array =>
  table.slice(round * entrants, (round + 1) * entrants);

describe('exact odds of single elimination', () => {
  // By hand and by enumeration with fractions, after Edwards (1991), Nel, and David (1959), Biometrika 46, 139-149.
  it('of four with strengths 4, 3, 2, 1 are 256/525, 207/700, 4/25, 17/300', () => {
    const odds = exact(singleElimination(4), byStrength([4, 3, 2, 1]));
    expectWithin(odds.title, [256 / 525, 207 / 700, 4 / 25, 17 / 300], 1e-12);
    expectWithin(rowOf(odds, odds.plays, 1), [0.8, 0.6, 0.4, 0.2], 1e-12);
    expect(odds.simulatedEvents).toBeNull();
  });

  it.each([
    { seeds: [1, 2, 3, 4], title: [128 / 315, 39 / 140, 76 / 315, 31 / 420] },
    { seeds: [1, 3, 2, 4], title: [44 / 105, 51 / 140, 7 / 45, 11 / 180] },
  ])('of the same four depend on the draw: $seeds', ({ seeds, title }) => {
    expectWithin(exact(drawn(seeds), byStrength([4, 3, 2, 1])).title, title, 1e-12);
  });

  it('of eight with strengths 8 to 1 are those of the enumeration of all 128 outcomes', () => {
    const odds = exact(singleElimination(8), byStrength([8, 7, 6, 5, 4, 3, 2, 1]));
    const title = [0.33364693, 0.24513528, 0.17338212, 0.11471164, 0.07223986, 0.0407876, 0.01686168, 0.00323489];
    expectWithin(odds.title, title, 5e-9);
    expect(Math.abs(elementAt(odds.title, 0) - 9_248_768 / 27_720_225)).toBeLessThanOrEqual(1e-12);
    expect(Math.abs(elementAt(odds.title, 4) - 1024 / 14_175)).toBeLessThanOrEqual(1e-12);
    const final = [0.567268, 0.460684, 0.350427, 0.241374, 0.171193, 0.122222, 0.066667, 0.020165];
    expectWithin(rowOf(odds, odds.plays, 2), final, 5e-7);
    expectWithin(rowOf(odds, odds.plays, 1), [0.888889, 0.777778, 0.666667, 0.555556], 5e-7);
  });

  it('say whom a player meets in which round', () => {
    const odds = exact(singleElimination(4, { thirdPlace: true }), byStrength([4, 3, 2, 1]), 0);
    expect([...rowOf(odds, odds.meets, 0)]).toEqual([0, 0, 0, 1]);
    expectWithin(rowOf(odds, odds.meets, 1), [0, 0.8 * 0.6, 0.8 * 0.4, 0], 1e-12);
    // The match for the third place, between the losers of the two halves.
    expectWithin(rowOf(odds, odds.meets, 2), [0, 0.2 * 0.4, 0.2 * 0.6, 0], 1e-12);
    expectWithin(odds.meetsAtAll, [0, 0.8 * 0.6 + 0.2 * 0.4, 0.8 * 0.4 + 0.2 * 0.6, 1], 1e-12);
  });

  it('take a match of several games from where it stands', () => {
    const plan = planBracket(singleElimination(2, { bestOf: () => 3 }));
    const { state } = enterResult(plan, started(plan), [0, 1], {
      match: 0,
      result: { winner: null, homeWins: 1, awayWins: 0, forfeited: false },
      drop: false,
    });
    expectWithin(
      exactOdds(
        plan,
        state,
        chancesBy(2, () => 0.6),
        null,
      ).title,
      [0.84, 0.16],
      1e-12,
    );
  });

  it('carry what is not known of ratings, and what was set by hand', () => {
    const plan = planBracket(singleElimination(2));
    const question = {
      plan,
      state: started(plan),
      ratings: [
        { rating: 1400, deviation: 80 },
        { rating: 1500, deviation: 150 },
      ],
      player: null,
      events: 40_000,
      seed: 3,
    };
    // Glickman's example of an expected score.
    const plain = meetingOdds({ ...question, overrides: [], uncertainty: 'each match' });
    expectWithin(plain.title, [0.375988], 1e-6);
    const override = [{ entrant: 0, opponent: 1, probability: 0.8 }];
    const byHand = meetingOdds({ ...question, overrides: override, uncertainty: 'each match' });
    expectWithin(byHand.title, [0.8, 0.2], 1e-12);
    // Drawing the strengths gives nearly the same over one match, since g approximates that integral.
    const drawnOnce = meetingOdds({ ...question, overrides: [], uncertainty: 'whole event' });
    expectWithin(drawnOnce.title, [0.375988], 0.02);
    const both = meetingOdds({ ...question, overrides: override, uncertainty: 'whole event' });
    expectWithin(both.title, [0.8], 4 * (standardError(0.8, both) ?? 0));
  });
});

describe('the simulation', () => {
  // Edwards (1996), Am. Stat. 50, 27-33 (method); enumerated with fractions.
  it('of double elimination of four agrees with the enumeration', () => {
    const odds = simulated(doubleElimination(4, { secondFinal: true }), byStrength([4, 3, 2, 1]), 100_000);
    for (const [entrant, title] of [265_088 / 496_125, 58_893 / 196_000, 1364 / 10_125, 69_157 / 2_268_000].entries()) {
      expect(Math.abs(elementAt(odds.title, entrant) - title)).toBeLessThanOrEqual(
        4 * (standardError(title, odds) ?? 0),
      );
    }
    const second = odds.rounds.findIndex(({ stage, round }) => stage === 'final' && round === 2);
    const reset = rowOf(odds, odds.plays, second).reduce((sum, share) => sum + share, 0) / 2;
    expect(Math.abs(reset - 0.4694444444)).toBeLessThanOrEqual(4 * (standardError(0.4694444444, odds) ?? 0));
  });

  // Path counting: p²(1 - (1-p)²) + 2p⁴(1-p) over four, p³(1 - (1-p)²) + 2p⁶(1-p) + p⁵(1-p) over eight.
  it.each([
    { n: 4, p: 0.7, title: 0.58996 },
    { n: 8, p: 0.6, title: 0.249869 },
    { n: 8, p: 0.8, title: 0.661914 },
  ])('of double elimination of $n gives one who beats everybody with $p the title with $title', ({ n, p, title }) => {
    const chances = chancesBy(n, (one) => (one === 0 ? p : 0.5));
    const odds = simulated(doubleElimination(n, { secondFinal: true }), chances, 100_000);
    expect(Math.abs(elementAt(odds.title, 0) - title)).toBeLessThanOrEqual(4 * (standardError(title, odds) ?? 0));
  });

  it('of single elimination agrees with the exact odds within four standard errors, from any standing', () => {
    const random = seededRandom(11);
    for (let round = 0; round < 12; round += 1) {
      const n = 2 + wholeBelow(random, 14);
      const plan = planBracket(singleElimination(n, { thirdPlace: true, bestOf: () => 3 }));
      const state = partlyPlayed(plan, random);
      const chances = byStrength(Array.from({ length: n }, () => 0.2 + random()));
      const player = wholeBelow(random, n);
      const truth = exactOdds(plan, state, chances, player);
      const odds = simulatedOdds({ plan, state, chances, player, simulation: { events: 20_000, seed: round } });
      for (const table of ['plays', 'exits', 'title', 'meets', 'meetsAtAll'] as const) {
        for (const [at, probability] of truth[table].entries()) {
          const error = standardError(Math.min(1, Math.max(0, probability)), odds) ?? 0;
          expect(Math.abs(elementAt(odds[table], at) - probability)).toBeLessThanOrEqual(4 * error + 1e-9);
        }
      }
    }
  });

  it('gives the same for the same seed, and refuses more than it holds', () => {
    const bracket = doubleElimination(6, { secondFinal: true });
    const chances = byStrength([6, 5, 4, 3, 2, 1]);
    expect(simulated(bracket, chances, 500)).toEqual(simulated(bracket, chances, 500));
    expect(() => simulated(bracket, chances, 0)).toThrow(expect.objectContaining({ code: 'stats.invalid_count' }));
  });
});

describe('odds of any bracket', () => {
  it('obey the laws of probability from any standing', () => {
    const random = seededRandom(20);
    for (let round = 0; round < 150; round += 1) {
      const plan = planBracket(randomBracket(random));
      const n = plan.bracket.entrants;
      const state = partlyPlayed(plan, random);
      const chances = byStrength(Array.from({ length: n }, () => 0.2 + random()));
      const player = wholeBelow(random, n);
      const odds = anyOdds(plan, state, chances, player);
      const tables = plan.steps.filter(({ kind }) => kind === 'table').length;
      // Several groups without a bracket have no one winner, and who never comes to play has no end to come to.
      const inEvent = new Set(plan.entered.filter((entrant) => entrant >= 0));
      const everybody = plan.steps.some(({ kind }) => kind === 'pairing') || inEvent.size === n;
      expect(everybody).toBe(true);
      if (plan.titleMatch !== null || tables === 1) expect(sum(odds.title)).toBeCloseTo(1, 9);
      for (let entrant = 0; entrant < n; entrant += 1) {
        const ends = odds.rounds.map((_, at) => elementAt(odds.exits, at * n + entrant));
        expect(sum(ends) + elementAt(odds.title, entrant)).toBeCloseTo(1, 9);
        for (const [at] of odds.rounds.entries()) {
          expect(elementAt(odds.meets, at * n + entrant)).toBeLessThanOrEqual(
            elementAt(odds.plays, at * n + entrant) + 1e-9,
          );
        }
      }
      for (const [at] of odds.rounds.entries()) {
        // Who plays in a round meets exactly one opponent there.
        expect(sum(rowOf(odds, odds.meets, at))).toBeCloseTo(elementAt(odds.plays, at * n + player), 9);
      }
    }
  });

  it('are 1/n for equals', () => {
    const equals = (n: number): WinChances => chancesBy(n, () => 0.5);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 6 }), (rounds) => {
        const n = 2 ** rounds;
        expectWithin(exact(singleElimination(n), equals(n)).title, new Array<number>(n).fill(1 / n), 1e-12);
      }),
      { numRuns: 6 },
    );
    for (const bracket of [
      doubleElimination(8, { secondFinal: true }),
      doubleElimination(8, { secondFinal: false }),
      roundRobin(4),
      swiss(8, 3),
      groupsIntoBracket(8, { groups: 2, advance: 2 }),
    ]) {
      const n = bracket.entrants;
      const odds = simulated(bracket, equals(n), 8_000);
      const error = standardError(1 / n, odds) ?? 0;
      // Without a second final who is unbeaten may lose it all with one defeat; by symmetry that hits all alike.
      expectWithin(odds.title, new Array<number>(n).fill(1 / n), 4 * error);
    }
  });

  it('are swapped when two entrants are', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.1, max: 10, noNaN: true }), { minLength: 2, maxLength: 24 }),
        fc.nat(),
        fc.nat(),
        (strengths, first, second) => {
          const n = strengths.length;
          const [one, other] = [first % n, second % n];
          const swapped = strengths.map((strength, at) =>
            at === one ? elementAt(strengths, other) : at === other ? elementAt(strengths, one) : strength,
          );
          const bracket = singleElimination(n);
          const exchanged = {
            ...bracket,
            matches: bracket.matches.map((match) => ({
              ...match,
              home: exchange(match.home, one, other),
              away: exchange(match.away, one, other),
            })),
          };
          const before = exact(bracket, byStrength(strengths)).title;
          const after = exact(exchanged, byStrength(swapped)).title;
          for (let at = 0; at < n; at += 1) {
            const place = at === one ? other : at === other ? one : at;
            expect(elementAt(after, place)).toBeCloseTo(elementAt(before, at), 10);
          }
        },
      ),
    );
  });
});

function exchange(source: Bracket['matches'][number]['home'], one: number, other: number): typeof source {
  if (source.from !== 'entrant') return source;
  return { ...source, entrant: source.entrant === one ? other : source.entrant === other ? one : source.entrant };
}

function sum(values: Iterable<number>): number {
  return [...values].reduce((total, value) => total + value, 0);
}

function anyOdds(plan: BracketPlan, state: BracketState, chances: WinChances, player: number): MeetingOdds {
  return isSingleElimination(plan.bracket)
    ? exactOdds(plan, state, chances, player)
    : simulatedOdds({ plan, state, chances, player, simulation: { events: 200, seed: 5 } });
}

function partlyPlayed(plan: BracketPlan, random: () => number): BracketState {
  let state = started(plan);
  const matches = [...plan.bracket.matches.keys()];
  const results = wholeBelow(random, matches.length + 1);
  for (let result = 0; result < results; result += 1) {
    const ready = matches.filter((match) => isReady(state, match));
    if (ready.length === 0) break;
    ({ state } = enterRandomly(plan, state, elementAt(ready, wholeBelow(random, ready.length)), random, true));
  }
  return state;
}
