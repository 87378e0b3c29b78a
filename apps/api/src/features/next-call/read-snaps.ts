import { columnsFromPlays, type PlayColumns, type PlayValue } from '#domain/charting/play-columns.js';
import { fieldPlace, PLAY_FIELDS, PLAY_TYPES, playField, type PlayFieldName } from '#domain/charting/play-fields.js';
import { readCell } from '#domain/charting/read-cell.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { visibleFields, type ForecastTarget } from '#domain/forecast/targets.js';
import { printed } from '../../common/printed.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import type { NextCallQuestion } from './read-question.js';

const PLAY_TYPE = fieldPlace('playType');
const SCRIMMAGE = PLAY_TYPES.indexOf('scrimmage');

/**
 * The snaps of a game in progress, the one to come last. Of that one only what is known before the target is taken.
 *
 * @param from - how many of the earlier snaps are left out, since they were read before
 * @throws ApiError `request.invalid` with every field that does not fit, or is known too late
 */
export function readSnaps(
  { snap, gameSoFar }: NextCallQuestion,
  target: ForecastTarget,
  vocabulary: Vocabulary,
  from: number,
): PlayColumns {
  const errors: FieldProblem[] = [];
  const visible = visibleFields(target, 'line');
  const read = (path: string, sent: Readonly<Record<string, unknown>>, may: (name: PlayFieldName) => boolean) => {
    const values = PLAY_FIELDS.map((): PlayValue => null);
    for (const [name, cell] of Object.entries(sent)) {
      const field = playField(name);
      const refuse = (expected: string): void => {
        errors.push({ field: `${path}.${name}`, found: printed(cell), expected });
      };
      if (field === undefined) refuse('a field of a play');
      else if (!may(field.name)) refuse(`a field that is known before the ${target}`);
      else {
        const reading = readCell(field, cell, vocabulary);
        if (reading.ok) values[fieldPlace(field.name)] = canonical(reading.value, field.type, vocabulary);
        else refuse(reading.expected);
      }
    }
    values[PLAY_TYPE] ??= SCRIMMAGE;
    return values;
  };
  const snaps = [
    ...gameSoFar.slice(from).map((play, at) => read(`gameSoFar.${from + at}`, play, () => true)),
    read('snap', snap, (name) => visible.has(name)),
  ];
  if (errors.length > 0) throw new ApiError('request.invalid', 'some fields are not valid', { errors });
  return columnsFromPlays(
    { chartId: '', gameId: '' },
    snaps.map((values, at) => ({ playNumber: at + 1, orderInGame: at + 1, offenseIsHome: true, values })),
  );
}

/** A clan's own term counts as the starter term that it stands for, as in the archive. */
function canonical(value: PlayValue, type: string, vocabulary: Vocabulary): PlayValue {
  if (type === 'term' && typeof value === 'number') return vocabulary.canonicalId(value);
  if (type === 'terms' && Array.isArray(value)) {
    return value.flatMap((id: number) => vocabulary.canonicalId(id) ?? []);
  }
  return value;
}
