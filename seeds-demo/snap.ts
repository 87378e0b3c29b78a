/** What is true of one snap in the demo world, before anybody charted it. */

import type { CodeFieldName, ListFieldName, NumberFieldName } from '#domain/charting/play-fields.js';

export type Side = 'home' | 'away';
export type Importance = 'scrimmage' | 'group' | 'elimination';
export type Hash = 'left' | 'middle' | 'right';
export type Strength = 'left' | 'right' | 'balanced';

/** What both coaches know before they call. */
export interface Situation {
  /** 1, 2 or 3: which event of the season. */
  readonly event: number;
  readonly importance: Importance;
  readonly quarter: number;
  readonly clockSeconds: number;
  readonly down: number;
  readonly distance: number;
  readonly yardsToGoal: number;
  readonly hash: Hash;
  readonly scoreDifference: number;
  /** Hurry near the end of a half, burn the clock when ahead late. */
  readonly pace: 'normal' | 'hurry' | 'burn';
  readonly firstOfDrive: boolean;
  /** What the same offense did on its snap before, within the game. */
  readonly before: {
    readonly callFamily: string;
    readonly concept: string;
    readonly success: boolean;
    readonly sacked: boolean;
  } | null;
}

/** What the offense shows at the line. */
export interface Look {
  readonly tempo: string;
  readonly personnel: string;
  readonly formation: string;
  readonly strength: Strength;
  readonly backfield: string;
  readonly motion: string;
  readonly motionBy: string | undefined;
}

export interface OffenseCall {
  /** Empty for a run-pass option: both were called. */
  readonly called: 'run' | 'pass' | undefined;
  readonly callFamily: string;
  readonly concept: string;
  readonly playFake: boolean;
  readonly runPassOptionTag: string | undefined;
  readonly designedGap: string | undefined;
  readonly designedSide: Hash | undefined;
}

export interface DefenseCall {
  readonly personnel: string;
  readonly front: string;
  readonly shell: string;
  readonly boxCount: number;
  readonly coverage: string;
  readonly pressure: string;
  readonly rushers: number;
  readonly pressurePath: string | undefined;
  readonly pressureSide: string | undefined;
  readonly pressureSource: string | undefined;
  readonly pressureShown: string | undefined;
  readonly manualStart: string;
  readonly manualAction: string;
  readonly alignment: readonly string[];
}

/** One adjustment of the duel before the snap. */
export interface Adjustment {
  readonly term: string;
  readonly secondsLeft: number;
  readonly trigger?: string;
}

export type FieldValues = Partial<Record<NumberFieldName, number>> &
  Partial<Record<CodeFieldName, string>> &
  Partial<Record<ListFieldName, readonly string[]>>;

export interface TruePlay {
  readonly offense: Side;
  readonly values: FieldValues;
  readonly adjustments: readonly Adjustment[];
  readonly situation: Situation | null;
  /** By the rule of 40, 60 and 100 % of the distance; empty where no success is counted. */
  readonly success: boolean | undefined;
}

/** Distance buckets of second and third down. */
export function isLong(situation: Situation): boolean {
  return situation.distance >= 7;
}

/** Three receivers on one side, a bunch included, as the vocabulary's parents have it. */
export function isThreeByOne(formation: string): boolean {
  return formation.startsWith('three by one') || formation.startsWith('bunch');
}

export function isEmpty(formation: string): boolean {
  return formation.startsWith('empty');
}

export function isHeavy(formation: string): boolean {
  return formation === 'three tight ends' || formation === 'goal line' || formation === 'heavy';
}
