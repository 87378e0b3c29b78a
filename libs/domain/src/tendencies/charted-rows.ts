import { columnsFromPlays, gatherPlays, type PlayColumns, type PlayValue } from '../charting/play-columns.js';
import { PLAY_FIELDS, type PlayFieldName } from '../charting/play-fields.js';
import { starterVocabulary } from '../charting/vocabulary.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from './classify-plays.js';
import type { TendencyPlays } from './tendency-plays.js';

// Test support: plays written by hand, a field at a time.

/** A number, a choice's word, a starter term's code or a list of them; what is left out is unknown. */
export type ChartedRow = Partial<Record<PlayFieldName, number | string | readonly string[]>>;

/** Snaps from scrimmage, one chart and game a list; chart `chart-0` records game `game-0`. */
export function chartedRows(...games: readonly (readonly ChartedRow[])[]): PlayColumns {
  const charts = games.map((rows, game) =>
    columnsFromPlays(
      { chartId: `chart-${game}`, gameId: `game-${game}` },
      rows.map((row, place) => ({
        playNumber: place + 1,
        orderInGame: place + 1,
        offenseIsHome: true,
        values: PLAY_FIELDS.map((field): PlayValue => {
          const value = row[field.name] ?? (field.name === 'playType' ? 'scrimmage' : null);
          if (value === null || typeof value === 'number') return value;
          if (typeof value !== 'string') return value.map((code) => starterVocabulary().idOfCode(code));
          return field.type === 'choice'
            ? field.choices.findIndex((choice) => choice === value)
            : starterVocabulary().idOfCode(value);
        }),
      })),
    ),
  );
  const fields = PLAY_FIELDS.map(({ name }) => name);
  return gatherPlays(
    charts.map((plays) => ({ plays, offense: 'both' })),
    fields,
    (term) => term,
  );
}

export function chartedFacts(...games: readonly (readonly ChartedRow[])[]): TendencyPlays {
  return classifyPlays(chartedRows(...games), starterVocabulary(), DEFAULT_FOOTBALL_SETTINGS);
}

/** So many copies of a row. */
export function times(count: number, row: ChartedRow): ChartedRow[] {
  return Array.from({ length: count }, () => row);
}
