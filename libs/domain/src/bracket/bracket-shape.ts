/** A part of an event. Groups are numbered from 1. */
export type Stage = 'main' | 'losers' | 'final' | 'third place' | 'swiss' | `group ${number}`;

/** Where the player on one side of a match comes from. */
export type Source =
  /** Entered directly; entrants are numbered from 0, the first seed first. */
  | { readonly from: 'entrant'; readonly entrant: number }
  | { readonly from: 'winner' | 'loser'; readonly match: number }
  /** From the table of a group or of the Swiss rounds, once all of its matches are over; places count from 1. */
  | { readonly from: 'place'; readonly stage: Stage; readonly place: number }
  /** Swiss: paired when the round before is over. */
  | { readonly from: 'pairing' };

export interface BracketMatch {
  readonly stage: Stage;
  /** Within its stage, from 1. */
  readonly round: number;
  /** Within its round, from 1; in the main stage places 2p - 1 and 2p lead to place p of the next round. */
  readonly position: number;
  readonly bestOf: number;
  readonly home: Source;
  readonly away: Source;
  /** A second final: played only when the match that feeds both sides was won by its away side, who had lost once. */
  readonly decider?: boolean;
}

/** A whole event: matches name each other by their place in the list. Feeding matches may stand anywhere. */
export interface Bracket {
  readonly entrants: number;
  readonly matches: readonly BracketMatch[];
}

export const UNKNOWN = -1;
export const HOME = 0;
export const AWAY = 1;

/** How far an event has come; the arrays have one entry a match, seats two. */
export interface BracketState {
  /** Entrants by match, home then away; -1 where not known yet. */
  readonly seats: Int32Array;
  /** -1 open, 0 home, 1 away. */
  readonly winners: Int8Array;
  /** Games won so far. */
  readonly homeWins: Uint8Array;
  readonly awayWins: Uint8Array;
}
