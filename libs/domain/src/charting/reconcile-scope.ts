import type { FilmScope } from './film-scope.js';
import type { ChartedPlay } from './play-columns.js';
import { PLAY_FIELDS, PLAY_TYPES, type PlayFieldName, type PlayType } from './play-fields.js';

const PLACE: ReadonlyMap<string, number> = new Map(PLAY_FIELDS.map((field, place) => [field.name, place]));

/** Place of a field in the values of a play. */
export function placeOf(field: PlayFieldName): number {
  return PLACE.get(field) ?? -1;
}

const DOWN = placeOf('down');
const QUARTER = placeOf('quarter');
const PLAY_TYPE = placeOf('playType');

const WITHOUT_DOWN: ReadonlySet<PlayType> = new Set<PlayType>(['kickoff', 'free kick', 'try kick', 'two-point try']);

/** Whether the rules give this play no down; false where its type is unknown. */
export function hasNoDown(values: ChartedPlay['values']): boolean {
  const code = values[PLAY_TYPE];
  const type = typeof code === 'number' ? PLAY_TYPES[code] : undefined;
  return type !== undefined && WITHOUT_DOWN.has(type);
}

/**
 * Whether a snap lies inside the part of the film that a chart covers. What the play does not say is taken to lie
 * inside: somebody who charted third downs had no need to write the down. A kickoff or a try has no down, so it is
 * outside of any list of downs.
 */
export function coversPlay(scope: FilmScope, play: Pick<ChartedPlay, 'offenseIsHome' | 'values'>): boolean {
  if (scope.offense !== null && play.offenseIsHome !== (scope.offense === 'home')) return false;
  const down = play.values[DOWN] ?? null;
  if (scope.downs !== null) {
    if (hasNoDown(play.values)) return false;
    if (typeof down === 'number' && !scope.downs.includes(down)) return false;
  }
  const quarter = play.values[QUARTER] ?? null;
  return scope.quarters === null || typeof quarter !== 'number' || scope.quarters.includes(quarter);
}

/** For each field, aligned with PLAY_FIELDS, whether the chart looked for it. */
export function coveredFields({ fields }: FilmScope): readonly boolean[] {
  return PLAY_FIELDS.map(({ name }) => fields === null || fields.includes(name));
}

/**
 * The narrowest scope that holds what every one of these covers. A part stays narrow only where all of them narrow it.
 *
 * @param scopes - at least one
 */
export function hullOfScopes(scopes: readonly FilmScope[]): FilmScope {
  const offenses = new Set(scopes.map(({ offense }) => offense));
  return {
    offense: offenses.size === 1 ? (scopes[0]?.offense ?? null) : null,
    downs: union(scopes.map(({ downs }) => downs)),
    quarters: union(scopes.map(({ quarters }) => quarters)),
    fields: union(scopes.map(({ fields }) => fields)),
  };
}

function union<Part extends number | string>(lists: readonly (readonly Part[] | null)[]): readonly Part[] | null {
  const known = lists.filter((list) => list !== null);
  if (known.length < lists.length) return null;
  return [...new Set(known.flat())].sort((one, other) => (one < other ? -1 : one > other ? 1 : 0));
}
