import { columnsFromPlays, PlayColumns, UNKNOWN_NUMBER, type PlayValue } from '../../charting/play-columns.js';
import { PLAY_FIELDS, PLAY_TYPES } from '../../charting/play-fields.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '../../tendencies/classify-plays.js';
import type { ForecastSnaps } from '../forecast-snaps.js';
import { callArchive } from '../live/call-archive.js';
import { askModel } from '../live/call-model.js';
import { fitCalls } from '../live/fit-calls.js';
import { classesOfGame, nextCall } from '../live/next-call.js';
import type { ScoredPlays } from '../scoring/forecast-scores.js';
import { fieldOfTarget, sideOfTarget, targetPlays, visibleFields, type ForecastTarget } from '../targets.js';

// Test support: next calls asked one after the other, as somebody beside the game would.

export interface ReplayedCalls {
  /** Answers by counting alone, and with the model where the archive is rich enough for one. */
  readonly byCounts: ScoredPlays;
  readonly byModel: ScoredPlays | null;
}

/**
 * Asks for the next call before every play of the later games whose target is known: the archive holds the games before
 * `untilGame` and is never added to, the game so far is the player's own plays in it, and of the asked play only what
 * shows before the target is sent.
 */
export function replayNextCalls(snaps: ForecastSnaps, target: ForecastTarget, untilGame: number): ReplayedCalls {
  const { plays, vocabulary, game } = snaps;
  const side = sideOfTarget(target);
  const last = plays.charts.length - 1;
  // An archive stands newest first.
  const newestFirst = new PlayColumns({
    ...{ playNumber: plays.playNumber, orderInGame: plays.orderInGame, offenseIsHome: plays.offenseIsHome },
    columns: plays.columns,
    charts: [...plays.charts].reverse(),
    chartIndex: game.map((place) => last - place),
  });
  const all = classifyPlays(newestFirst, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
  const counts = all.counts.map((count, play) => ((game[play] ?? 0) < untilGame ? count : 0));
  const unfitted = callArchive(target, { ...all, counts }, snaps[side], vocabulary);
  const { weights, model } = fitCalls(unfitted);
  const archive = { ...unfitted, weights };
  const visible = visibleFields(target, 'line');
  const asked = targetPlays(snaps, target).rows.filter((row) => (game[row] ?? 0) >= untilGame);
  const classes = archive.names.length;
  const outcome: number[] = [];
  const [counted, modelled]: [number[], number[]] = [[], []];
  for (const row of asked) {
    const player = snaps[side][row] ?? -1;
    const before: number[] = [];
    for (let play = row - 1; play >= 0 && game[play] === game[row]; play -= 1) {
      if (snaps[side][play] === player) before.unshift(play);
    }
    const sent = [...before.map((play) => valuesOf(plays, play)), seenOf(valuesOf(plays, row), visible)];
    const batch = columnsFromPlays(
      { chartId: '', gameId: '' },
      sent.map((values, at) => ({ playNumber: at + 1, orderInGame: at + 1, offenseIsHome: true, values })),
    );
    const facts = classifyPlays(batch, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
    const so = { facts, classOf: classesOfGame(archive, facts, fieldOfTarget(target)) };
    const codes: ArrayLike<number> = target === 'run-pass' ? all.called : plays.code(fieldOfTarget(target)).codes;
    outcome.push(codes[row] ?? 0);
    counted.push(...nextCall(archive, player, so).probabilities);
    if (model === null) continue;
    modelled.push(...nextCall(archive, player, so, askModel(model, player, so)).probabilities);
  }
  const scored = (probabilities: readonly number[]): ScoredPlays => ({
    probabilities: Float64Array.from(probabilities),
    outcome: Int32Array.from(outcome),
    classes,
  });
  return { byCounts: scored(counted), byModel: model === null ? null : scored(modelled) };
}

function seenOf(values: readonly PlayValue[], visible: ReadonlySet<string>): PlayValue[] {
  return values.map((value, place) => {
    const name = PLAY_FIELDS[place]?.name ?? '';
    return name === 'playType' ? PLAY_TYPES.indexOf('scrimmage') : visible.has(name) ? value : null;
  });
}

function valuesOf(plays: PlayColumns, play: number): PlayValue[] {
  return PLAY_FIELDS.map((field): PlayValue => {
    if (field.type === 'number') {
      const value = plays.number(field.name).values[play] ?? UNKNOWN_NUMBER;
      return value === UNKNOWN_NUMBER ? null : value;
    }
    if (field.type === 'terms') {
      const { starts, codes, meanings, known } = plays.list(field.name);
      if (known[play] !== 1) return null;
      return [...codes.subarray(starts[play], starts[play + 1])].map((code) => meanings[code] ?? 0);
    }
    const { codes, meanings } = plays.code(field.name);
    return meanings[codes[play] ?? -1] ?? null;
  });
}
