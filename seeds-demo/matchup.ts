import { oneOf } from './randomness.js';
import type { DefenseCall, FieldValues, Look, OffenseCall, Situation } from './snap.js';
import type { Habits } from './tendencies.js';
import type { RandomSource } from '#domain/statistics/seeded-random.js';

/** What came out of a snap, before the rules of the game are applied to it. */
export interface Outcome {
  readonly values: FieldValues;
  readonly yards: number;
  readonly ends: 'in bounds' | 'out of bounds' | 'incomplete' | 'intercepted' | 'fumble lost';
  /** After an interception or a lost fumble: yards from the line of scrimmage to where it happened, and the way back. */
  readonly turnoverAt: number;
  readonly returnYards: number;
  readonly fumbleKept: boolean;
}

export interface Matchup {
  readonly random: RandomSource;
  readonly situation: Situation;
  readonly look: Look;
  readonly call: OffenseCall;
  readonly defense: DefenseCall;
  readonly offenseHabits: Habits;
  /** Positive when the offense is the better one. */
  readonly skill: number;
}

/** Numbers follow the role, so that the same athlete shows up again. */
export function jersey(random: RandomSource, role: string): number {
  const numbers: Readonly<Record<string, readonly number[]>> = {
    quarterback: [7],
    'running back': [22, 28],
    'attached tight end': [85, 88],
    'slot receiver': [11, 15],
    'inner slot': [15, 19],
    'outside receiver, multiple side': [1, 80],
    'outside receiver, single side': [13, 81],
  };
  return oneOf(random, numbers[role] ?? [40]);
}
