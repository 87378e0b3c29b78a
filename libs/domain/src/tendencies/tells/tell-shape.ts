import type { Interval } from '../../statistics/interval.js';
import type { DimensionValue } from '../dimension-names.js';
import type { Evidence } from '../evidence.js';
import type { Side, TendencyPlays } from '../tendency-plays.js';
import type { Cue, CueValue } from './cues.js';
import type { SearchedFamily } from './search.js';
import type { Strata } from './strata.js';
import type { ToldDimension } from './told-dimensions.js';

/** Seconds that a cue leaves before the snap. */
export interface CueSeconds {
  readonly median: number;
  readonly fewest: number;
  /** Plays with the cue on which both times are charted. */
  readonly plays: number;
  /** True where the cue shows before the line-up, so that these seconds are what it leaves at least. */
  readonly atLeast: boolean;
}

/** A cue value and a call, with what was counted. Shares are 0–1. */
export interface CueAndCall {
  readonly cue: Cue;
  readonly cueValue: CueValue;
  readonly dimension: ToldDimension;
  readonly call: DimensionValue;
  /** Whether the call is made more or less with the cue. */
  readonly direction: 'more' | 'less';
  /** Plays with the cue on which the dimension is known, and how many of them were this call. */
  readonly plays: number;
  readonly count: number;
  /** The same where the cue is known and another. */
  readonly playsWithout: number;
  readonly countWithout: number;
  /** Shares in the same situations of the same games; they differ from the raw counts' by what those explain. */
  readonly shareWith: number;
  readonly shareWithout: number;
  /** Share with less share without, adjusted. */
  readonly difference: number;
  /** Of the difference, games as clusters; null where only one game says something. */
  readonly interval: Interval | null;
  /** Share with over share without, adjusted; null where the call is never made without the cue. */
  readonly lift: number | null;
  /** Mantel and Haenszel's common odds ratio; Infinity where nothing speaks against, null where nothing speaks. */
  readonly oddsRatio: number | null;
  readonly pValue: number;
  readonly method: 'Cochran-Mantel-Haenszel with continuity correction' | 'exact conditional mid-P';
  /** Games with plays with the cue on which the dimension is known. */
  readonly games: number;
  /** Games in which what is claimed was seen: the call with the cue; where it is avoided, the cue without the call. */
  readonly gamesSeen: number;
  readonly oneGameOnly: boolean;
  readonly seconds: CueSeconds | null;
  /** Plays with the cue and the call. */
  readonly evidence: Evidence;
  /** Plays with the cue and another call. */
  readonly exceptions: Evidence;
}

/** A discovery. */
export interface Tell extends CueAndCall {
  /** The smallest level at which this would have been found, given the families selected; at most the level asked for. */
  readonly adjustedPValue: number;
  /**
   * Of a pair, whether one of its two values alone was found to tell the same call the same way: the pair may then say
   * nothing new.
   */
  readonly restates: boolean;
}

/** What the search rests on; always said with its result. */
export interface TellsTested {
  /** Plays that count, with a known situation. */
  readonly plays: number;
  readonly games: number;
  /** Counting plays left out because their situation is not known. */
  readonly withoutSituation: number;
  readonly cueValues: number;
  /** Cue value by dimension. */
  readonly families: number;
  readonly selectedFamilies: number;
  /** Cue value by call. */
  readonly calls: number;
}

/** The search itself: what `leads` ranks, not for a reader. */
export interface TellsSearch {
  readonly facts: TendencyPlays;
  readonly strata: Strata;
  readonly families: readonly SearchedFamily[];
}

export interface TellsResult {
  readonly side: Side;
  /** False discovery rate. */
  readonly level: number;
  readonly confidence: number;
  readonly tested: TellsTested;
  /** Discoveries only, the most certain first; none is a usual answer. */
  readonly tells: readonly Tell[];
  /** Everything that was tested, for `leads`. */
  readonly search: TellsSearch;
}
