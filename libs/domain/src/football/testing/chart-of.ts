import {
  columnsFromPlays,
  type ChartedPlay,
  type ChartKey,
  type PlayColumns,
  type PlayValue,
} from '../../charting/play-columns.js';
import { PLAY_FIELDS, type PlayField, type PlayFieldName } from '../../charting/play-fields.js';
import { starterVocabulary } from '../../charting/vocabulary.js';

/** A play as a test writes it: numbers as numbers, choices by their word, terms by what follows the dot of their code. */
export type PlaySketch = Partial<Record<PlayFieldName, number | string | readonly string[]>> & {
  readonly offenseIsHome?: boolean;
  readonly order?: number;
};

const VOCABULARY = starterVocabulary();

/** The columns of one chart. What a sketch leaves out is unknown, except that it is a play from scrimmage. */
export function chartOf(sketches: readonly PlaySketch[], chart: ChartKey = { chartId: 'c', gameId: 'g' }): PlayColumns {
  return columnsFromPlays(
    chart,
    sketches.map((sketch, place): ChartedPlay => {
      const { offenseIsHome = true, order = place + 1 } = sketch;
      const full: PlaySketch = { playType: 'scrimmage', ...sketch };
      const values = PLAY_FIELDS.map((field) => valueOf(field, full[field.name]));
      return { playNumber: place + 1, orderInGame: order, offenseIsHome, values };
    }),
  );
}

function valueOf(field: PlayField, written: number | string | readonly string[] | undefined): PlayValue {
  if (written === undefined) return null;
  if (typeof written === 'number') return written;
  if (typeof written === 'string') {
    if (field.type === 'choice') return field.choices.indexOf(written);
    if (field.type === 'term') return VOCABULARY.idOfCode(`${field.kind}.${written}`);
  } else if (field.type === 'terms') {
    return written.map((name) => VOCABULARY.idOfCode(`${field.kind}.${name}`));
  }
  throw new RangeError(`${field.name} cannot hold ${JSON.stringify(written)}`);
}
