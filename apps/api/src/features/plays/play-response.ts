import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import { valuesOfRow } from '../../common/play-values.js';
import type { PlayResponse } from './plays.dto.js';
import type { PlayRow } from './plays.repository.js';

type NameOf = (termId: number) => string | null;

/** Ids of all terms that plays carry, to be named at once. */
export function termIdsOf(rows: readonly PlayRow[]): Set<number> {
  const ids = new Set<number>();
  for (const row of rows) {
    valuesOfRow(row).forEach((value, place) => {
      const type = PLAY_FIELDS[place]?.type;
      if (type === 'term' && typeof value === 'number') ids.add(value);
      if (type === 'terms' && typeof value !== 'number') value?.forEach((id) => ids.add(id));
    });
  }
  return ids;
}

/** A play in the reader's words. */
export function playResponse(row: PlayRow, nameOf: NameOf): PlayResponse {
  const foreign: string[] = [];
  const stored = valuesOfRow(row);
  const fields = PLAY_FIELDS.map((field, place): [string, unknown] => {
    const value = stored[place] ?? null;
    if (value === null || field.type === 'number') return [field.name, value];
    if (field.type === 'choice') return [field.name, typeof value === 'number' ? field.choices[value] : null];
    const named = typeof value === 'number' ? nameOf(value) : value.map(nameOf).filter((name) => name !== null);
    if (named === null || (Array.isArray(named) && typeof value !== 'number' && named.length < value.length)) {
      foreign.push(field.name);
    }
    return [field.name, named];
  });
  const { chartId, playNumber, orderInGame, gameId, offense, offensePlayerId, defensePlayerId } = row;
  const { adjustments, knownBy, note } = row;
  return {
    ...{ chartId, playNumber, orderInGame, gameId, offense, offensePlayerId, defensePlayerId },
    ...Object.fromEntries(fields),
    ...{ adjustments, knownBy, note, foreign },
  };
}
