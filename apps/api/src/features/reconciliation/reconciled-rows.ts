import { createHash } from 'node:crypto';
import type { ChartedPlay } from '#domain/charting/play-columns.js';
import { PLAY_FIELDS, columnName } from '#domain/charting/play-fields.js';
import type { Reconciliation, ReconciledPlay } from '#domain/charting/reconcile.js';
import { placeOf } from '#domain/charting/reconcile-scope.js';
import type { GameOfCharts, PlayExtras, PlayRecord } from './reconciliation.repository.js';

const ADJUSTMENTS = placeOf('preSnapAdjustments');

/** The plays that count, under the numbers given to them. */
export function numberedPlays({ plays }: Reconciliation, numbers: readonly number[]): readonly ChartedPlay[] {
  return plays.map(({ orderInGame, offenseIsHome, values }, at) => ({
    playNumber: numbers[at] ?? 0,
    orderInGame,
    offenseIsHome,
    values,
  }));
}

/**
 * Rows of table `play` for the plays that count. What rows say beyond the fields comes along: a note from the weightiest
 * chart that has one, the rest from the chart that the field itself is from.
 */
export function reconciledRows(
  game: GameOfCharts,
  reconciliation: Reconciliation,
  numbers: readonly number[],
  extras: readonly PlayExtras[],
): readonly PlayRecord[] {
  const byPlay = new Map(extras.map((extra) => [`${extra.chartId} ${extra.playNumber}`, extra]));
  return reconciliation.plays.map((play, at) => {
    const ofChart = play.members.map((number, chart) =>
      number === null ? undefined : byPlay.get(`${reconciliation.charts[chart] ?? ''} ${number}`),
    );
    const row: Record<string, unknown> = {
      play_number: numbers[at],
      order_in_game: play.orderInGame,
      offense_player_id: play.offenseIsHome ? game.homePlayerId : game.awayPlayerId,
      defense_player_id: play.offenseIsHome ? game.awayPlayerId : game.homePlayerId,
      note: ofChart.findLast((extra) => typeof extra?.note === 'string')?.note ?? null,
      adjustment_details: ofChart[play.from[ADJUSTMENTS] ?? -1]?.adjustmentDetails ?? null,
      known_by: knownBy(play, ofChart),
    };
    PLAY_FIELDS.forEach((field, place) => {
      const value = play.values[place] ?? null;
      const isChoice = field.type === 'choice' && typeof value === 'number';
      row[columnName(field.name)] = isChoice ? field.choices[value] : value;
    });
    return row;
  });
}

function knownBy(play: ReconciledPlay, ofChart: readonly (PlayExtras | undefined)[]): object | null {
  const entries = PLAY_FIELDS.flatMap(({ name }, place) => {
    const how = ofChart[play.from[place] ?? -1]?.knownBy?.[name];
    return how === undefined ? [] : [[name, how] as const];
  });
  return entries.length === 0 ? null : Object.fromEntries(entries);
}

/** The same for the same rows, so that a rebuild that changes nothing raises nothing. */
export function hashRows(filmScope: object, rows: readonly PlayRecord[]): Buffer {
  return createHash('sha256')
    .update(JSON.stringify([filmScope, rows]))
    .digest();
}
