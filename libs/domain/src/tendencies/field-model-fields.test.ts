import { gatherPlays, type PlayColumns } from '../charting/play-columns.js';
import { PLAY_FIELDS, type PlayFieldName } from '../charting/play-fields.js';
import { starterVocabulary } from '../charting/vocabulary.js';
import { seededRandom } from '../statistics/seeded-random.js';
import { chartedRows, type ChartedRow } from './charted-rows.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from './classify-plays.js';
import { DIMENSION_NAMES } from './dimension-names.js';
import { readDimension } from './dimensions.js';
import { FIELD_MODEL_FIELDS } from './field-model-fields.js';
import { fieldModel } from './field-model.js';

// A field that is left out by mistake throws where it is read.

const VOCABULARY = starterVocabulary();
const random = seededRandom(11);
const any = (count: number): number => Math.floor(random() * count);

function anyRow(): ChartedRow {
  const values = PLAY_FIELDS.flatMap((field): [PlayFieldName, number | string | readonly string[]][] => {
    if (field.type === 'number')
      return [[field.name, field.minimum + any(Math.min(40, field.maximum - field.minimum))]];
    if (field.type === 'choice') return [[field.name, field.choices[any(field.choices.length)] ?? '']];
    const rows = VOCABULARY.rows(field.kind);
    const code = rows[any(rows.length)]?.code ?? null;
    return code === null ? [] : [[field.name, field.type === 'terms' ? [code] : code]];
  });
  return { ...Object.fromEntries(values), playType: any(8) > 0 ? 'scrimmage' : 'punt' };
}

const FULL = chartedRows(Array.from({ length: 300 }, anyRow), Array.from({ length: 300 }, anyRow));

const only = (plays: PlayColumns, fields: readonly PlayFieldName[]): PlayColumns =>
  gatherPlays([{ plays, offense: 'both' }], fields, (term) => term);

describe.each(['offense', 'defense'] as const)('the fields of the model of the %s', (side) => {
  const full = classifyPlays(FULL, VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
  const lean = classifyPlays(only(FULL, FIELD_MODEL_FIELDS[side]), VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);

  it('classify plays as all fields do', () => {
    expect({ ...lean, plays: null }).toEqual({ ...full, plays: null });
  });

  it('throw where something else is read, in place of unknown', () => {
    const { plays } = fieldModel({
      facts: lean,
      side,
      playerOf: lean.plays.chartIndex,
      players: 2,
      vocabulary: VOCABULARY,
    }).facts;
    expect(() => plays.number('clockSeconds')).toThrow('the batch was gathered without clockSeconds');
    expect(() => plays.code('hash')).toThrow('the batch was gathered without hash');
    expect(() => plays.list('preSnapAdjustments')).toThrow('the batch was gathered without preSnapAdjustments');
  });

  it.each(DIMENSION_NAMES[side])('hold all that %s is read from', (dimension) => {
    const read = readDimension(dimension, lean, VOCABULARY);
    expect(read.codes.some((code) => code >= 0)).toBe(true);
    expect(read).toEqual(readDimension(dimension, full, VOCABULARY));
  });
});
