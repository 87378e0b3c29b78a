import { Evidence } from '../evidence.js';
import type { TendencyPlays } from '../tendency-plays.js';
import type { CallTable } from './call-tables.js';
import { cueSeconds } from './cue-seconds.js';
import { effectOf } from './effect.js';
import type { CallTest, SearchedFamily } from './search.js';
import type { CueAndCall } from './tell-shape.js';

/** What describing needs beside the family. */
export interface Described {
  readonly facts: TendencyPlays;
  /** Ascending places of the counting plays with a known situation. */
  readonly places: Int32Array;
  readonly confidence: number;
}

/**
 * A tested call as a reader gets it.
 *
 * @returns null where no situation of any game has plays with and without the cue: what was only compared over games has
 *   no difference to state, and is not told
 */
export function describeCall(family: SearchedFamily, test: CallTest, described: Described): CueAndCall | null {
  const { leveledCue, leveledDimension, cueValue } = family;
  const { facts, places, confidence } = described;
  const code = leveledDimension.levels.kept[test.column] ?? -1;
  const call = leveledDimension.values[code];
  const effect = effectOf(test.tables, confidence);
  if (effect === null || call === undefined) return null;

  const { cue } = leveledCue;
  const shownCode = cue.values.indexOf(cueValue);
  const isShown = (play: number): boolean => cue.codes[play] === shownCode && (leveledDimension.codes[play] ?? -1) >= 0;
  const isCalled = (play: number): boolean => leveledDimension.codes[play] === code;
  const direction = test.excess < 0 ? 'less' : 'more';
  const { both, cueOnly, callOnly, neither, games, gamesBoth, gamesCueOnly } = countsOf(test.tables);
  const gamesSeen = direction === 'more' ? gamesBoth : gamesCueOnly;
  const evidence = new Evidence(facts.plays, places, (play) => isShown(play) && isCalled(play));
  return {
    cue,
    cueValue,
    dimension: leveledDimension.dimension,
    call,
    direction,
    plays: both + cueOnly,
    count: both,
    playsWithout: callOnly + neither,
    countWithout: callOnly,
    shareWith: effect.shareWith,
    shareWithout: effect.shareWithout,
    difference: effect.difference,
    interval: effect.interval,
    lift: effect.lift,
    oddsRatio: test.oddsRatio,
    pValue: test.pValue,
    method: test.exact ? 'exact conditional mid-P' : 'Cochran-Mantel-Haenszel with continuity correction',
    games,
    gamesSeen,
    oneGameOnly: gamesSeen <= 1,
    seconds: cueSeconds(cue.firstSeen, facts, places.filter(isShown)),
    evidence,
    exceptions: new Evidence(facts.plays, places, (play) => isShown(play) && !isCalled(play)),
  };
}

interface TableCounts {
  readonly both: number;
  readonly cueOnly: number;
  readonly callOnly: number;
  readonly neither: number;
  readonly games: number;
  readonly gamesBoth: number;
  readonly gamesCueOnly: number;
}

function countsOf(tables: readonly CallTable[]): TableCounts {
  let [both, cueOnly, callOnly, neither] = [0, 0, 0, 0];
  const withCall = new Set<number>();
  const withAnother = new Set<number>();
  for (const { game, table } of tables) {
    both += table[0][0];
    cueOnly += table[0][1];
    callOnly += table[1][0];
    neither += table[1][1];
    if (table[0][0] > 0) withCall.add(game);
    if (table[0][1] > 0) withAnother.add(game);
  }
  const games = new Set([...withCall, ...withAnother]).size;
  return { both, cueOnly, callOnly, neither, games, gamesBoth: withCall.size, gamesCueOnly: withAnother.size };
}
