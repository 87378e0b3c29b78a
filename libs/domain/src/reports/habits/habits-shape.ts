import type { PlayFieldName } from '../../charting/play-fields.js';
import type { DimensionName } from '../../tendencies/dimension-names.js';
import type { CueName } from '../../tendencies/tells/cue-names.js';
import type { ToldDimension } from '../../tendencies/tells/told-dimensions.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import type { ReportInterval, ReportPlay } from '../report-play.js';

/** What a report says of a player's habits; as plain as the rest of it. */
export interface ReportHabits {
  /** Seen before the snap: tells, leads, shells that lie, the defender controlled by hand. */
  readonly givesAway: readonly HabitTopic[];
  /** What follows what: openers, same again, reactions, order, the duel before the snap, point of attack, decisions. */
  readonly sequences: readonly HabitTopic[];
  /** Recent against earlier games, second half against first, and who changed with the rules. */
  readonly changed: readonly HabitTopic[];
  /** The event of each game, for a reader to group by: in the order in which they were first played in. */
  readonly events: readonly ReportEvent[];
  /** A few shares, event by event. */
  readonly overEvents: readonly ShareOverEvents[];
}

export type HabitTopicName =
  | 'tells'
  | 'leads'
  | 'looks'
  | 'disguise'
  | 'manualDefender'
  | 'openers'
  | 'repeats'
  | 'reactions'
  | 'order'
  | 'adjustments'
  | 'duel'
  | 'pointOfAttack'
  | 'decisions'
  | 'clock'
  | 'timeouts'
  | 'drift'
  | 'withinGames'
  | 'rulesVersion';

export interface HabitTopic {
  readonly topic: HabitTopicName;
  readonly side: Side;
  readonly title: string;
  /** What it rests on; where there is no claim, why not. */
  readonly note: string;
  /** What says something, the most telling first. */
  readonly claims: readonly HabitClaim[];
  /** Where there is no claim, why; absent where there is one, and in older reports. */
  readonly silence?: Silence;
}

/**
 * `not charted`: what it is read from is known on no play. `too little film`: it was looked for, on so few plays that
 * nothing could be seen or ruled out. `nothing to compare with`: no field, no other time, no other rules. `not found`: it
 * was looked for where it could have been seen.
 */
export type SilenceReason = 'not charted' | 'too little film' | 'nothing to compare with' | 'not found';

/** Why a topic has nothing to say, for programs; its note says so in words. */
export interface Silence {
  readonly reason: SilenceReason;
  /** What of a play has to be charted for it to speak; empty where the fields are known and more film is needed. */
  readonly toChart: readonly PlayFieldName[];
}

/** One sentence with the counts and plays that it stands on. */
export interface HabitClaim {
  /** The same whenever the report is made again from the same input. */
  readonly id: string;
  readonly side: Side;
  readonly topic: HabitTopicName;
  /** What it is about, in short. */
  readonly label: string;
  /** The sentence; it names `count` of `known`. */
  readonly words: string;
  readonly count: number;
  /** Plays on which it could be known. */
  readonly known: number;
  /** Of `count` in `known`; null where nothing is known. */
  readonly interval: ReportInterval | null;
  readonly fieldShare: number | null;
  readonly fieldKnown: number;
  /** Games in which the plays counted were. */
  readonly games: number;
  /** `counted`: a plain count, which claims nothing beyond itself. */
  readonly status: 'established' | 'unproven' | 'counted';
  /** As many as `count`. */
  readonly plays: readonly ReportPlay[];
  /** Of a tell, what it is read off a play by; absent elsewhere, and in older reports. */
  readonly tell?: PredictedTell;
}

/** A cue and a call, so that later plays can say whether the one still tells the other. */
export interface PredictedTell {
  /** One cue, or the two of a pair. */
  readonly cue: readonly CueName[];
  readonly cueKey: string;
  readonly dimension: ToldDimension;
  readonly callKey: string;
  readonly direction: 'more' | 'less';
  /** The call where the cue is known and another. */
  readonly countWithout: number;
  readonly playsWithout: number;
}

export interface ReportEvent {
  /** Null for games outside events. */
  readonly eventId: string | null;
  /** ISO 8601 date, or null where it is not known. */
  readonly firstPlayedOn: string | null;
  readonly games: number;
}

/** A share from event to event. */
export interface ShareOverEvents {
  readonly side: Side;
  readonly dimension: DimensionName;
  readonly dimensionLabel: string;
  readonly label: string;
  /** One an event, in the order of `events`. */
  readonly points: readonly EventPoint[];
}

export interface EventPoint {
  readonly id: string;
  readonly count: number;
  readonly known: number;
  /** Wilson interval; null where nothing is known, which is not a share of 0. */
  readonly interval: ReportInterval | null;
  readonly plays: readonly ReportPlay[];
}
