import { UNKNOWN_CODE, UNKNOWN_NUMBER, type ChartedPlay, type PlayColumns, type PlayValue } from './play-columns.js';
import { PLAY_FIELDS, type PlayField } from './play-fields.js';

/** The plays of a batch one by one, as they were charted; the way back from columns. */
export function playsOfColumns(columns: PlayColumns): ChartedPlay[] {
  const readers = PLAY_FIELDS.map((field) => valueReader(columns, field));
  return Array.from({ length: columns.count }, (_, play) => ({
    playNumber: columns.playNumber[play] ?? 0,
    orderInGame: columns.orderInGame[play] ?? 0,
    offenseIsHome: columns.offenseIsHome[play] === 1,
    values: readers.map((read) => read(play)),
  }));
}

function valueReader(columns: PlayColumns, field: (typeof PLAY_FIELDS)[number]): (play: number) => PlayValue {
  if (!columns.columns.has(field.name)) return () => null;
  switch (field.type) {
    case 'number': {
      const { values } = columns.number(field.name);
      return (play) => (values[play] === UNKNOWN_NUMBER ? null : (values[play] ?? null));
    }
    case 'terms': {
      const { starts, codes, known, meanings } = columns.list(field.name);
      return (play) =>
        known[play] === 1
          ? Array.from(codes.subarray(starts[play], starts[play + 1]), (code) => meanings[code] ?? 0)
          : null;
    }
    default: {
      const { codes, meanings } = columns.code(field.name);
      return (play) => meanings[codes[play] ?? UNKNOWN_CODE] ?? null;
    }
  }
}

/** Whether a field's values are ids of terms. */
export function holdsTerms(field: PlayField): boolean {
  return field.type === 'term' || field.type === 'terms';
}
