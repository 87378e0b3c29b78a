import { elementAt } from '../statistics/element-at.js';
import { assertCount } from '../statistics/guards.js';
import { randomWords } from '../statistics/random-words.js';
import type { BracketPlan, PairingStep, PlanStep, TableStep } from './bracket-plan.js';
import { HOME, UNKNOWN, type BracketState } from './bracket-shape.js';
import {
  ownThresholds,
  sharedThresholds,
  strengthDraws,
  type DrawnStrengths,
  type SharedThresholds,
  type StrengthDraws,
} from './match-thresholds.js';
import { OddsCounts } from './odds-counts.js';
import type { MeetingOdds } from './odds-shape.js';
import { tableOf } from './seats.js';
import { swissPairs } from './swiss-pairs.js';
import { isTable } from './table-members.js';
import type { WinChances } from './win-chances.js';

export interface Simulation {
  /** How many events, 1 to a million. */
  readonly events: number;
  readonly seed: number;
  /**
   * Where given, each simulated event first draws how strong everybody really is, so that who is underrated is so in all
   * of its matches. Match-ups set by hand stay as they are.
   */
  readonly strengths?: DrawnStrengths;
}

export interface SimulatedQuestion {
  readonly plan: BracketPlan;
  /** With seats as `seatsOf` gives them. */
  readonly state: BracketState;
  /** Of single games. */
  readonly chances: WinChances;
  /** The entrant whose meetings are asked for, or null. */
  readonly player: number | null;
  readonly simulation: Simulation;
}

export const MOST_SIMULATED_ENTRANTS = 1024;
/** What the inner loop asks of a match, side by side in one array, so that it reads memory in one line. */
const FIXTURE = 5;
const [WINNER_TO, LOSER_TO, ROW, OFFSET, FIRST_FINAL] = [0, 1, 2, 3, 4] as const;
/** Random words made at a time: few enough to stay in the nearest cache. */
const WORDS = 4096;

/**
 * Odds of any bracket, from playing what is left of it many times over. What is over stands, the wins of a match under way
 * count, what a table leaves level is drawn by lot. Memory: 8 n² bytes for each length of match that occurs, and the tables
 * of the answer; nothing grows with the number of events.
 *
 * @returns probabilities as shares of the simulated events
 * @throws DomainError `stats.invalid_count` beyond 1,024 entrants or a million events
 */
export function simulatedOdds(question: SimulatedQuestion): MeetingOdds {
  const { plan, simulation } = question;
  assertCount('entrants', plan.bracket.entrants, { min: 2, max: MOST_SIMULATED_ENTRANTS });
  assertCount('events', simulation.events, { min: 1, max: 1_000_000 });
  const events = new SimulatedEvents(question);
  events.countWhatIsOver();
  for (let event = 0; event < simulation.events; event += 1) events.play(event);
  return events.counts.odds();
}

class SimulatedEvents {
  readonly counts: OddsCounts;
  private readonly plan: BracketPlan;
  private readonly state: BracketState;
  private readonly player: number;
  private readonly events: number;
  private readonly seats: Int32Array;
  private readonly winners: Int8Array;
  private readonly steps: readonly PlanStep[];
  private readonly hasTables: boolean;
  /** By match, where its round begins in the counts. */
  private readonly rows: Int32Array;
  private readonly fixtures: Int32Array;
  private readonly inTable: Uint8Array;
  private readonly shared: SharedThresholds;
  private readonly own: Float64Array;
  private readonly strengths: StrengthDraws | null;
  /** Whether some chances are not simply those of a match from its start. */
  private readonly special: boolean;
  private readonly lots: Int32Array;
  private readonly fill: (into: Uint32Array) => void;
  private readonly words = new Uint32Array(WORDS);
  private nextWord = WORDS;

  constructor({ plan, state, chances, player, simulation }: SimulatedQuestion) {
    const { bracket } = plan;
    const { rounds, roundOf } = plan.columns;
    this.plan = plan;
    this.state = state;
    this.player = player ?? UNKNOWN;
    this.events = simulation.events;
    this.counts = new OddsCounts(bracket.entrants, rounds, simulation.events);
    this.seats = state.seats.slice();
    this.winners = state.winners.slice();
    const open = (match: number): boolean => elementAt(state.winners, match) === UNKNOWN;
    this.steps = plan.steps.flatMap((step): PlanStep[] => {
      if (step.kind === 'matches') return [{ kind: 'matches', matches: step.matches.filter(open) }];
      // What follows from results that stand is seated already.
      return (step.kind === 'pairing' ? step.before : step.matches).some(open) ? [step] : [];
    });
    this.hasTables = this.steps.some(({ kind }) => kind !== 'matches');
    this.rows = roundOf.map((round) => round * bracket.entrants);
    this.inTable = Uint8Array.from(bracket.matches, ({ stage }) => (isTable(stage) ? 1 : 0));
    this.shared = sharedThresholds(bracket, chances);
    this.own = ownThresholds(bracket, state, chances);
    const { strengths, seed } = simulation;
    this.strengths = strengths === undefined ? null : strengthDraws(bracket, state, strengths, seed);
    this.special = this.strengths !== null || this.own.some((threshold) => threshold >= 0);
    this.fixtures = Int32Array.from(
      bracket.matches.flatMap(({ decider, home }, match) => [
        elementAt(plan.winnerTo, match),
        elementAt(plan.loserTo, match),
        elementAt(this.rows, match),
        elementAt(this.shared.offsets, match),
        decider === true && home.from === 'winner' ? home.match : UNKNOWN,
      ]),
    );
    this.lots = Int32Array.from({ length: bracket.entrants }, (_, entrant) => entrant);
    this.fill = randomWords(seed);
  }

  /** What has happened happens in every event. */
  countWhatIsOver(): void {
    const { plan, state, counts, events } = this;
    for (const [match, winner] of state.winners.entries()) {
      if (winner === UNKNOWN) continue;
      const [home, away] = [elementAt(state.seats, 2 * match), elementAt(state.seats, 2 * match + 1)];
      const row = elementAt(this.rows, match);
      counts.plays[row + home] = events;
      counts.plays[row + away] = events;
      this.goOn(match, winner === HOME ? home : away, winner === HOME ? away : home, events);
      if (home === this.player) counts.metBefore(row, away);
      if (away === this.player) counts.metBefore(row, home);
    }
    for (const step of plan.steps) {
      const over = step.kind === 'table' && step.matches.every((match) => elementAt(state.winners, match) !== UNKNOWN);
      if (over) this.leaveTable(step, events, true);
    }
  }

  play(event: number): void {
    this.strengths?.draw();
    if (this.hasTables) this.drawLots();
    for (const step of this.steps) {
      if (step.kind === 'matches') this.playMatches(step.matches, event);
      else if (step.kind === 'pairing') this.pair(step);
      else this.leaveTable(step, 1, false);
    }
  }

  /** The inner loop: everything it touches is a typed array, and nothing is made anew. */
  private playMatches(matches: Int32Array, event: number): void {
    const { seats, winners, words, own, strengths, special, player, fixtures } = this;
    const { plays } = this.counts;
    const { table } = this.shared;
    const { entrants } = this.plan.bracket;
    let next = this.nextWord;
    for (const match of matches) {
      const fixture = match * FIXTURE;
      const firstFinal = fixtures[fixture + FIRST_FINAL] ?? UNKNOWN;
      if (firstFinal >= 0 && winners[firstFinal] === HOME) {
        this.endWithoutSecondFinal(match, firstFinal);
        continue;
      }
      const home = seats[2 * match] ?? 0;
      const away = seats[2 * match + 1] ?? 0;
      let threshold = -1;
      if (special) {
        threshold = strengths?.threshold(match, home, away) ?? -1;
        if (threshold < 0) threshold = own[match] ?? -1;
      }
      if (threshold < 0) threshold = table[(fixtures[fixture + OFFSET] ?? 0) + home * entrants + away] ?? 0;
      if (next === WORDS) {
        this.fill(words);
        next = 0;
      }
      // HOME or AWAY, without a branch: nobody can guess who wins, a processor neither.
      const side = Number((words[next] ?? 0) >= threshold);
      next += 1;
      const winner = seats[2 * match + side] ?? 0;
      const loser = seats[2 * match + 1 - side] ?? 0;
      winners[match] = side;
      const row = fixtures[fixture + ROW] ?? 0;
      plays[row + home] = (plays[row + home] ?? 0) + 1;
      plays[row + away] = (plays[row + away] ?? 0) + 1;
      const up = fixtures[fixture + WINNER_TO] ?? UNKNOWN;
      const down = fixtures[fixture + LOSER_TO] ?? UNKNOWN;
      if (up >= 0 && down >= 0) {
        seats[up] = winner;
        seats[down] = loser;
      } else this.goOn(match, winner, loser, 1);
      if (home === player) this.counts.meet(row, away, event);
      else if (away === player) this.counts.meet(row, home, event);
    }
    this.nextWord = next;
  }

  /** Where winner and loser of a match go, into another match or out of the event. */
  private goOn(match: number, winner: number, loser: number, times: number): void {
    const { exits, title } = this.counts;
    const { winnerTo, loserTo, titleMatch } = this.plan;
    // A table, not a match, says who leaves it.
    if (this.inTable[match] === 1) return;
    const row = this.rows[match] ?? 0;
    const [up, down] = [winnerTo[match] ?? UNKNOWN, loserTo[match] ?? UNKNOWN];
    if (up >= 0) this.seats[up] = winner;
    else if (match === titleMatch) title[winner] = (title[winner] ?? 0) + times;
    else exits[row + winner] = (exits[row + winner] ?? 0) + times;
    if (down >= 0) this.seats[down] = loser;
    else exits[row + loser] = (exits[row + loser] ?? 0) + times;
  }

  private endWithoutSecondFinal(match: number, firstFinal: number): void {
    const { exits, title } = this.counts;
    const [home, away] = [elementAt(this.seats, 2 * firstFinal), elementAt(this.seats, 2 * firstFinal + 1)];
    if (match === this.plan.titleMatch) title[home] = elementAt(title, home) + 1;
    const cell = elementAt(this.rows, firstFinal) + away;
    exits[cell] = elementAt(exits, cell) + 1;
  }

  private pair({ before, matches, entrants }: PairingStep): void {
    const standing = tableOf(
      this.plan,
      { matches: before, entrants },
      { seats: this.seats, winners: this.winners },
      this.lots,
    );
    for (const [at, [home, away]] of swissPairs(standing).pairs.entries()) {
      const match = elementAt(matches, at);
      this.seats[2 * match] = home;
      this.seats[2 * match + 1] = away;
    }
  }

  /** Seats the places of a table; who gets none is out, and the first place wins where nothing follows. */
  private leaveTable(step: TableStep, times: number, settled: boolean): void {
    const { exits, title } = this.counts;
    const standing = tableOf(this.plan, step, { seats: this.seats, winners: this.winners }, this.lots);
    const row = Math.max(...step.matches.map((match) => elementAt(this.rows, match)));
    const on = new Set<number>();
    for (const { seat, place } of step.seats) {
      // What is settled was seated by the event's own lots.
      if (!settled) this.seats[seat] = elementAt(standing, place - 1).entrant;
      on.add(elementAt(this.seats, seat));
    }
    const decides = this.plan.titleMatch === null && this.isOnlyTable;
    for (const { entrant } of standing) {
      if (on.has(entrant)) continue;
      if (decides && entrant === standing[0]?.entrant) title[entrant] = elementAt(title, entrant) + times;
      else exits[row + entrant] = elementAt(exits, row + entrant) + times;
    }
  }

  private get isOnlyTable(): boolean {
    return this.plan.steps.filter(({ kind }) => kind === 'table').length === 1;
  }

  /** Every order of the lots equally likely, as in `shuffled`, in place. */
  private drawLots(): void {
    const { lots, words } = this;
    for (let last = lots.length - 1; last > 0; last -= 1) {
      if (this.nextWord === WORDS) {
        this.fill(words);
        this.nextWord = 0;
      }
      const chosen = Math.floor((elementAt(words, this.nextWord) / 2 ** 32) * (last + 1));
      this.nextWord += 1;
      const moved = elementAt(lots, last);
      lots[last] = elementAt(lots, chosen);
      lots[chosen] = moved;
    }
  }
}
