import type { PlayValue } from '#domain/charting/play-columns.js';
import { playField } from '#domain/charting/play-fields.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';

/** What a value says, as it would stand in a sheet; a term that the reader does not know is "another clan's term". */
export function valueWords(
  vocabulary: Vocabulary,
  fieldName: string,
  value: PlayValue,
): string | number | string[] | null {
  if (value === null) return null;
  if (fieldName === 'offense') return value === 1 ? 'home' : 'away';
  const termName = (id: number): string => vocabulary.byId(id)?.name ?? FOREIGN;
  if (typeof value !== 'number') return value.map(termName);
  const field = playField(fieldName);
  switch (field?.type) {
    case 'choice':
      return field.choices[value] ?? null;
    case 'term':
    case 'terms':
      return termName(value);
    default:
      return value;
  }
}

const FOREIGN = "another clan's term";
