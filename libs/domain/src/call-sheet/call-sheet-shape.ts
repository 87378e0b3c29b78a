import type { Interval } from '../statistics/interval.js';
import type { Side } from '../tendencies/tendency-plays.js';
import type { ReportPlay } from '../reports/report-play.js';
import type { LateGameStrip } from '../late-game/late-game-strip.js';
import type { FourthDownAdvice } from './fourth-down.js';
import type { OurFigures } from './our-figures.js';

/** Something that they do in a cell's situation. */
export interface TheirHabit {
  readonly label: string;
  readonly count: number;
  /** Plays of the cell on which it is known. */
  readonly known: number;
  /** Wilson's, of the share. */
  readonly interval: Interval;
  readonly plays: readonly ReportPlay[];
}

/** A call of ours in a cell. */
export interface SheetCall {
  readonly menuCallId: string;
  readonly name: string;
  /** Of the turns of the cell's order. */
  readonly turns: number;
}

/** A gain of ours in points a play, beside the mean of the situation. */
export interface Gain {
  readonly mean: number;
  readonly interval: Interval;
}

export interface SheetCell {
  readonly key: string;
  readonly group: string;
  readonly title: string;
  /** Their plays that the cell draws on. */
  readonly snaps: number;
  readonly games: number;
  /** What they do most, at most two. */
  readonly theirs: readonly TheirHabit[];
  /** At most three, the most frequent first. */
  readonly calls: readonly SheetCall[];
  /** Places of `calls`, to be called in this order and then from the start again. */
  readonly order: readonly number[];
  /** If they go on as they are. */
  readonly gain: Gain | null;
  /** What the mix holds with, however they adjust. */
  readonly guarantee: number | null;
  /** Set where the cell leaves the base sheet: what stands there, and what the change is worth. */
  readonly change: { readonly from: readonly string[]; readonly worth: number } | null;
  /** Numbers of clips. */
  readonly clips: readonly number[];
  readonly note: string | null;
}

/** A cell that leaves the base sheet. */
export interface ChangedCell {
  /** Ours. */
  readonly side: Side;
  readonly cell: SheetCell;
  readonly change: NonNullable<SheetCell['change']>;
}

export interface SheetSide {
  /** Ours. */
  readonly side: Side;
  readonly cells: readonly SheetCell[];
}

export interface Clip {
  readonly number: number;
  readonly play: ReportPlay;
  readonly gameId: string;
  /** Of the charted film. */
  readonly second: number;
  readonly reason: string;
}

/** Fourth downs of ours by distance and spot. */
export interface FourthDownStrip {
  readonly distances: readonly { readonly name: string; readonly distance: number }[];
  readonly spots: readonly { readonly name: string; readonly yardsToGoal: number }[];
  /** Distances x spots; null where nobody can have that far to go. */
  readonly advice: readonly (readonly (FourthDownAdvice | null)[])[];
}

/** How often they went for it. */
export interface TheirFourthDowns {
  readonly part: string;
  readonly count: number;
  readonly known: number;
  readonly fieldCount: number;
  readonly fieldKnown: number;
}

export interface CallSheet {
  readonly formatVersion: 1;
  readonly seed: number;
  /** In [0, 1]: 0 holds whatever they do, 1 is the best against what they do now. */
  readonly lean: number;
  readonly confidence: number;
  readonly offense: SheetSide;
  readonly defense: SheetSide;
  readonly fourthDowns: FourthDownStrip;
  /** Where two points or an onside kick are better, by lead and drives left. */
  readonly lateGame: readonly LateGameStrip[];
  readonly figures: OurFigures;
  readonly theirFourthDowns: readonly TheirFourthDowns[];
  readonly clips: readonly Clip[];
}
