/**
 * How much of a game's film a chart covers. A part that is null is covered whole. A chart counts only inside its scope,
 * and gaps that the scope explains are no breaks of continuity.
 */
export interface FilmScope {
  /** Only the snaps on which this player has the ball. */
  readonly offense: 'home' | 'away' | null;
  /** Only these downs, 1 to 4. */
  readonly downs: readonly number[] | null;
  /** Only these quarters; the second half is 3, 4 and what follows. */
  readonly quarters: readonly number[] | null;
  /** Only these fields of the catalogue were charted; the others were not looked for. */
  readonly fields: readonly string[] | null;
}

export const WHOLE_FILM: FilmScope = { offense: null, downs: null, quarters: null, fields: null };

/**
 * Orders scopes from wide to narrow: 0 for the whole film, one more for each part that is narrowed. Common practice, no
 * source: a person who looked at everything missed less than one who looked for something.
 */
export function filmScopeRank(scope: FilmScope): number {
  return [scope.offense, scope.downs, scope.quarters, scope.fields].filter((part) => part !== null).length;
}

/** Whether every snap of the game was charted, whatever the fields. */
export function coversAllSnaps(scope: FilmScope): boolean {
  return scope.offense === null && scope.downs === null && scope.quarters === null;
}
