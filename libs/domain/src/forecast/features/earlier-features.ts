import { UNKNOWN_CODE, UNKNOWN_NUMBER } from '../../charting/play-columns.js';
import type { SnapFacts } from '../forecast-snaps.js';
import type { FeatureColumn } from './feature-column.js';

const NAMES = [
  'lastCalled',
  'lastGain',
  'lastSuccess',
  'lastButOneCalled',
  'callsInSeries',
  'passesInSeries',
  'secondsSinceLast',
  'snapsBefore',
] as const;

/** A player's last snap with the ball, and how it got there. Codes and numbers stand as in the columns of plays. */
interface LastCall {
  /** Place among the game's plays. */
  readonly at: number;
  readonly drive: number;
  readonly quarter: number;
  readonly clock: number;
  readonly called: number;
  readonly success: number;
  /** What the snap's result stands for. */
  readonly result: number;
  readonly gain: number;
  /** Called on the snap before that, in the same unbroken series. */
  readonly calledBefore: number;
  readonly series: number;
  readonly passes: number;
  readonly snaps: number;
}

/** How far a game has come: all that its plays so far say about the next one. Plain data that nothing writes to. */
export interface EarlierCalls {
  readonly plays: number;
  /** By the player's number. */
  readonly last: ReadonlyMap<number, LastCall>;
}

export const NOTHING_EARLIER: EarlierCalls = { plays: 0, last: new Map() };

const NO_CALL: LastCall = {
  ...{ at: -1, drive: UNKNOWN_NUMBER, quarter: UNKNOWN_NUMBER, clock: UNKNOWN_NUMBER, gain: UNKNOWN_NUMBER },
  ...{ called: UNKNOWN_CODE, success: UNKNOWN_CODE, result: UNKNOWN_CODE, calledBefore: UNKNOWN_CODE },
  ...{ series: 0, passes: 0, snaps: 0 },
};

/**
 * What this player did earlier in the same game with the ball: the last calls, what came of them, the time since. All of
 * it is known before the play in question, whatever kind of field it came from. `lastResult` is a category of its own.
 *
 * @param before - how far the first of the games had come before these plays
 */
export function earlierFeatures(snaps: SnapFacts, before: EarlierCalls = NOTHING_EARLIER): FeatureColumn[] {
  const { count } = snaps.plays;
  const columns = NAMES.map(() => new Float64Array(count).fill(Number.NaN));
  const lastResult = new Float64Array(count).fill(Number.NaN);
  const [lastCalled, lastGain, lastSuccess, lastButOne, series, passes, seconds, snapsBefore] = columns;
  walkGames(snaps, before, { told: count, taken: count - 1 }, (play, own, { follows, quarter, clock }) => {
    set(snapsBefore, play, own.snaps);
    set(series, play, follows ? own.series : 0);
    set(passes, play, follows ? own.passes : 0);
    if (!follows) return;
    if (own.called !== UNKNOWN_CODE) set(lastCalled, play, own.called);
    if (own.success !== UNKNOWN_CODE) set(lastSuccess, play, own.success);
    if (own.result !== UNKNOWN_CODE) set(lastResult, play, own.result);
    if (own.gain !== UNKNOWN_NUMBER) set(lastGain, play, own.gain);
    if (own.calledBefore !== UNKNOWN_CODE) set(lastButOne, play, own.calledBefore);
    if (quarter === own.quarter && clock !== UNKNOWN_NUMBER && own.clock !== UNKNOWN_NUMBER) {
      set(seconds, play, own.clock - clock);
    }
  });
  return [
    ...NAMES.map((name, place): FeatureColumn => ({ name, kind: 'number', values: columns[place] ?? lastResult })),
    { name: 'lastResult', kind: 'category', values: lastResult },
  ];
}

/**
 * How far a game has come after the first of some more of its plays.
 *
 * @param until - how many of the plays are over
 */
export function earlierCalls(snaps: SnapFacts, until: number, before: EarlierCalls): EarlierCalls {
  return until === 0 ? before : walkGames(snaps, before, { told: 0, taken: until }, () => undefined);
}

interface PlayNow {
  /** Only an unbroken series tells: after a kick or a change of the ball the last call was long ago. */
  readonly follows: boolean;
  readonly quarter: number;
  readonly clock: number;
}

interface PlaysWalked {
  /** Of how many of the first plays it is told what their player did before. */
  readonly told: number;
  /** How many of the first plays are taken in. */
  readonly taken: number;
}

/** Goes over the first plays: tells of each what its player did before it, then takes it in. */
function walkGames(
  snaps: SnapFacts,
  before: EarlierCalls,
  { told, taken }: PlaysWalked,
  tell: (play: number, own: LastCall, now: PlayNow) => void,
): EarlierCalls {
  const { plays, game, offense, called, success, counts } = snaps;
  const gains = plays.number('yardsGained').values;
  const quarters = plays.number('quarter').values;
  const clocks = plays.number('clockSeconds').values;
  const downs = plays.number('down').values;
  const drives = plays.number('drive').values;
  const results = plays.code('snapResult');
  let at = before.plays;
  // Copied before it is written to: of a snap that is asked about nothing is taken in.
  let last: Map<number, LastCall> | null = null;
  for (let play = 0; play < Math.max(told, taken); play += 1) {
    if (play > 0 && game[play] !== game[play - 1]) {
      at = 0;
      last = new Map();
    }
    const player = offense[play] ?? -1;
    const own: LastCall = (last ?? before.last).get(player) ?? NO_CALL;
    const drive = drives[play] ?? UNKNOWN_NUMBER;
    const quarter = quarters[play] ?? UNKNOWN_NUMBER;
    const clock = clocks[play] ?? UNKNOWN_NUMBER;
    const follows = own.at >= 0 && own.at === at - 1 && own.drive === drive;
    if (play < told) tell(play, own, { follows, quarter, clock });
    if (play < taken && counts[play] === 1) {
      const calledNow = called[play] ?? UNKNOWN_CODE;
      const isFresh = !follows || downs[play] === 1;
      last ??= new Map(before.last);
      last.set(player, {
        at,
        drive,
        quarter,
        clock,
        called: calledNow,
        success: success[play] ?? UNKNOWN_CODE,
        result: results.meanings[results.codes[play] ?? UNKNOWN_CODE] ?? UNKNOWN_CODE,
        gain: gains[play] ?? UNKNOWN_NUMBER,
        calledBefore: follows ? own.called : UNKNOWN_CODE,
        series: (isFresh ? 0 : own.series) + 1,
        passes: (isFresh ? 0 : own.passes) + (calledNow === 1 ? 1 : 0),
        snaps: own.snaps + 1,
      });
    }
    at += 1;
  }
  return { plays: at, last: last ?? before.last };
}

function set(column: Float64Array | undefined, play: number, value: number): void {
  if (column !== undefined) column[play] = value;
}
