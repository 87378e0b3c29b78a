import type { LedToName, PlayFacts } from './play-facts.js';

/** How far the drive's number may have moved on. Charts count kickoffs and tries to the drive before or after them. */
export type DriveStep = 'same' | 'next' | 'same or next';

/** One way in which a game may go on after a play. A part that is null may be anything. */
export interface NextSnap {
  /** `down` is a snap with a down, whatever is then done with it. */
  readonly kind: 'down' | 'try' | 'kickoff';
  readonly offense: number | null;
  readonly down: number | null;
  /** Yards, or `series`: 10, or the goal if that is nearer. */
  readonly distance: number | 'series' | null;
  readonly yardsToGoal: number | null;
  readonly drive: DriveStep | null;
}

/** A charted spot or gain is right to about a yard, so that within one yard of the line to gain both are possible. */
export const ROUNDING_YARDS = 1;

export const ANYTHING = { offense: null, down: null, distance: null, yardsToGoal: null, drive: null } as const;

export function sameAgain(play: PlayFacts): NextSnap {
  const { offense, down, distance, yardsToGoal } = play;
  if (play.kind === 'kickoff' || play.kind === 'try') return { ...ANYTHING, kind: play.kind, offense, drive: 'same' };
  return { kind: 'down', offense, down, distance, yardsToGoal, drive: 'same' };
}

export function newSeries(offense: number, yardsToGoal: number | null, drive: DriveStep): NextSnap {
  return { kind: 'down', offense, down: 1, distance: 'series', yardsToGoal, drive };
}

/** The other side begins where the ball lies; `spot` is given from the side that lost it. */
export function ballLost(play: PlayFacts, spot: number | null): NextSnap {
  return newSeries(1 - play.offense, spot === null ? null : clampSpot(100 - spot), 'next');
}

export function tryBy(offense: number): NextSnap {
  return { ...ANYTHING, kind: 'try', offense, drive: 'same or next' };
}

export function kickoffBy(offense: number | null): NextSnap {
  return { ...ANYTHING, kind: 'kickoff', offense, drive: 'same or next' };
}

export function gainOf(play: PlayFacts): number | null {
  return play.gain ?? (play.result === 'incomplete' || play.result === 'spiked' ? 0 : null);
}

/** Yards to the goal after the gain; 0 or less is across the goal line, 100 or more in the own end zone. */
export function spotAfter(play: PlayFacts): number | null {
  const gain = gainOf(play);
  return play.yardsToGoal === null || gain === null ? null : play.yardsToGoal - gain;
}

export function clampSpot(spot: number): number {
  return Math.min(99, Math.max(1, spot));
}

export function didLeadTo(play: PlayFacts, name: LedToName): boolean {
  return play.ledTo?.has(name) === true;
}
