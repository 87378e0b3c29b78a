import { WHOLE_FILM, type FilmScope } from './film-scope.js';
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
 * What charts cover together, as one scope. It never says more than is true: a reader takes what lies inside for looked
 * at. Where the parts of the film cannot be said together (third downs of one and the second half of another), it is
 * the part of the first of them. Fields are those that some chart looked for on all of that part; where only the charts
 * together cover it, those that all of them looked for.
 *
 * @param scopes - at least one, the widest first
 */
export function scopeTogether(scopes: readonly FilmScope[]): FilmScope {
  const [first = WHOLE_FILM] = scopes;
  const hull: FilmScope = {
    ...WHOLE_FILM,
    offense: scopes.every(({ offense }) => offense === first.offense) ? first.offense : null,
    downs: union(scopes.map(({ downs }) => downs)),
    quarters: union(scopes.map(({ quarters }) => quarters)),
  };
  const isExact = scopes.some((scope) => coversSnapsOf(scope, hull)) || differingParts(scopes) <= 1;
  const snaps = isExact ? hull : first;
  const whole = scopes.filter((scope) => coversSnapsOf(scope, snaps));
  const lists = (whole.length > 0 ? whole : scopes).map(({ fields }) => fields);
  return { ...snaps, fields: whole.length > 0 ? union(lists) : shared(lists) };
}

/** Whether one scope covers every snap that another covers. */
function coversSnapsOf(one: FilmScope, other: FilmScope): boolean {
  const covers = (list: readonly number[] | null, part: readonly number[] | null): boolean =>
    list === null || (part?.every((value) => list.includes(value)) ?? false);
  const side = one.offense === null || one.offense === other.offense;
  return side && covers(one.downs, other.downs) && covers(one.quarters, other.quarters);
}

function differingParts(scopes: readonly FilmScope[]): number {
  const parts = [
    scopes.map(({ offense }) => offense),
    scopes.map(({ downs }) => downs?.join() ?? null),
    scopes.map(({ quarters }) => quarters?.join() ?? null),
  ];
  return parts.filter((values) => new Set(values).size > 1).length;
}

function union<Part extends number | string>(lists: readonly (readonly Part[] | null)[]): readonly Part[] | null {
  const known = lists.filter((list) => list !== null);
  if (known.length < lists.length) return null;
  return [...new Set(known.flat())].sort((one, other) => (one < other ? -1 : one > other ? 1 : 0));
}

function shared(lists: readonly (readonly string[] | null)[]): readonly string[] | null {
  return lists.reduce((common, list) => {
    if (common === null) return list;
    return list === null ? common : common.filter((name) => list.includes(name));
  }, null);
}
