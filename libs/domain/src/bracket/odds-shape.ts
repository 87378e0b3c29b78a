import type { Bracket, Stage } from './bracket-shape.js';

/** A round of the event; all groups play their rounds side by side. */
export interface OddsRound {
  readonly stage: Exclude<Stage, `group ${number}`> | 'group';
  readonly round: number;
}

/** Probabilities of what an event still holds, given what is over. Tables are rounds × entrants. */
export interface MeetingOdds {
  readonly entrants: number;
  readonly rounds: readonly OddsRound[];
  /** Null: exact. Else out of so many simulated events, and every probability p has standard error √(p (1 - p) / events). */
  readonly simulatedEvents: number | null;
  /** Probability of playing in a round. */
  readonly plays: Float64Array;
  /** Probability that the round is the last one played, by somebody who does not win the event. */
  readonly exits: Float64Array;
  /** Probability of winning the event, by entrant. */
  readonly title: Float64Array;
  /** Probability that the player asked for meets an entrant in a round; zeros where nobody was asked for. */
  readonly meets: Float64Array;
  /** Probability that the player asked for meets an entrant at least once, or again, by entrant. */
  readonly meetsAtAll: Float64Array;
}

const ORDER: readonly OddsRound['stage'][] = ['group', 'swiss', 'main', 'losers', 'third place', 'final'];

export interface RoundColumns {
  readonly rounds: readonly OddsRound[];
  /** By match, which round it belongs to. */
  readonly roundOf: Int32Array;
}

export function roundColumns({ matches }: Bracket): RoundColumns {
  const keys = Int32Array.from(matches, ({ stage, round }) => STAGE_KEY * ORDER.indexOf(sharedStage(stage)) + round);
  const distinct = Int32Array.from(new Set(keys)).sort();
  const columns = new Map([...distinct].map((key, column) => [key, column]));
  const rounds = [...distinct].map((key) => ({
    stage: ORDER[Math.floor(key / STAGE_KEY)] ?? 'main',
    round: key % STAGE_KEY,
  }));
  return { rounds, roundOf: keys.map((key) => columns.get(key) ?? 0) };
}

/** More rounds than any stage has. */
const STAGE_KEY = 10_000;

function sharedStage(stage: Stage): OddsRound['stage'] {
  return isGroup(stage) ? 'group' : stage;
}

function isGroup(stage: Stage): stage is `group ${number}` {
  return stage.startsWith('group ');
}

export function emptyOdds(entrants: number, rounds: readonly OddsRound[], simulatedEvents: number | null): MeetingOdds {
  const table = (): Float64Array => new Float64Array(rounds.length * entrants);
  const row = (): Float64Array => new Float64Array(entrants);
  return {
    entrants,
    rounds,
    simulatedEvents,
    plays: table(),
    exits: table(),
    title: row(),
    meets: table(),
    meetsAtAll: row(),
  };
}
