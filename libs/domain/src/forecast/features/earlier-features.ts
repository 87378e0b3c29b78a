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

/**
 * What this player did earlier in the same game with the ball: the last calls, what came of them, the time since. All of
 * it is known before the play in question, whatever kind of field it came from. `lastResult` is a category of its own.
 */
export function earlierFeatures(snaps: SnapFacts): FeatureColumn[] {
  const { plays, game, offense, called, success, counts } = snaps;
  const gains = plays.number('yardsGained').values;
  const quarters = plays.number('quarter').values;
  const clocks = plays.number('clockSeconds').values;
  const downs = plays.number('down').values;
  const results = plays.code('snapResult');
  const drives = plays.number('drive').values;
  const columns = NAMES.map(() => new Float64Array(plays.count).fill(Number.NaN));
  const lastResult = new Float64Array(plays.count).fill(Number.NaN);
  const [lastCalled, lastGain, lastSuccess, lastButOne, series, passes, seconds, before] = columns;
  let current = -1;
  const last = new Map<number, { play: number; before: number; series: number; passes: number; snaps: number }>();
  let playBefore = -1;
  for (let play = 0; play < plays.count; play += 1) {
    if (game[play] !== current) {
      current = game[play] ?? -1;
      last.clear();
      playBefore = -1;
    }
    const player = offense[play] ?? -1;
    const own = last.get(player) ?? { play: -1, before: -1, series: 0, passes: 0, snaps: 0 };
    // Only an unbroken series tells: after a kick or a change of the ball the last call was long ago.
    const follows = own.play >= 0 && own.play === playBefore && drives[own.play] === drives[play];
    if (before !== undefined) before[play] = own.snaps;
    if (series !== undefined) series[play] = follows ? own.series : 0;
    if (passes !== undefined) passes[play] = follows ? own.passes : 0;
    if (follows) {
      set(lastCalled, play, called[own.play] ?? UNKNOWN_CODE);
      set(lastSuccess, play, success[own.play] ?? UNKNOWN_CODE);
      set(lastResult, play, results.meanings[results.codes[own.play] ?? UNKNOWN_CODE] ?? UNKNOWN_CODE);
      const gain = gains[own.play] ?? UNKNOWN_NUMBER;
      if (lastGain !== undefined && gain !== UNKNOWN_NUMBER) lastGain[play] = gain;
      if (own.before >= 0) set(lastButOne, play, called[own.before] ?? UNKNOWN_CODE);
      const [now, then] = [clocks[play] ?? UNKNOWN_NUMBER, clocks[own.play] ?? UNKNOWN_NUMBER];
      const isOneQuarter = quarters[play] === quarters[own.play];
      if (seconds !== undefined && isOneQuarter && now !== UNKNOWN_NUMBER && then !== UNKNOWN_NUMBER) {
        seconds[play] = then - now;
      }
    }
    playBefore = play;
    if (counts[play] !== 1) continue;
    const isFresh = !follows || downs[play] === 1;
    last.set(player, {
      play,
      before: follows ? own.play : -1,
      series: (isFresh ? 0 : own.series) + 1,
      passes: (isFresh ? 0 : own.passes) + (called[play] === 1 ? 1 : 0),
      snaps: own.snaps + 1,
    });
  }
  return [
    ...NAMES.map((name, place): FeatureColumn => ({ name, kind: 'number', values: columns[place] ?? lastResult })),
    { name: 'lastResult', kind: 'category', values: lastResult },
  ];
}

function set(column: Float64Array | undefined, play: number, code: number): void {
  if (column !== undefined && code !== UNKNOWN_CODE) column[play] = code;
}
