import type { ApiErrorCode, FieldProblem } from './problems.js';

/** What PostgreSQL tells of a broken constraint, as far as a client may know it: never the values. */
interface BrokenConstraint {
  readonly code: string;
  readonly table: string;
  readonly constraint: string;
}

export interface ConstraintProblem {
  readonly code: ApiErrorCode;
  readonly detail: string;
  readonly errors: readonly FieldProblem[];
}

const NOT_UNIQUE = '23505';
const NO_SUCH_ROW = '23503';
const CHECK_FAILED = '23514';

/** Columns that the API calls otherwise, and constraints that are not named after one column. */
const FIELDS: Readonly<Record<string, string>> = {
  // What is left of scope_reader_clan_id_fkey.
  fkey: 'clans',
  normalisedHandle: 'handle',
  normalisedAlias: 'aliases',
  kindNormalisedName: 'name',
  kindNormalised: 'synonyms',
  linkLevel: 'linkedPlayerId',
  eventIdPlayerId: 'playerId',
  eventIdRoundPosition: 'position',
  gameIdReference: 'reference',
  scopeIdGameIdOrderInGameSide: 'orderInGame',
  sideName: 'name',
  dates: 'endsOn',
  wins: 'homeWins',
  players: 'homePlayerId',
};

/**
 * A constraint that a request broke, as a problem of the request. The name tells the field, since constraints are named
 * as PostgreSQL itself would name them: `player_clan_id_normalised_handle_key`.
 *
 * @returns null for whatever is no broken constraint
 */
export function constraintProblem(thrown: unknown, method: string): ConstraintProblem | null {
  if (!isBrokenConstraint(thrown)) return null;
  const field = fieldOf(thrown);
  switch (thrown.code) {
    case NOT_UNIQUE:
      return problem('resource.taken', field, 'one that no other has', 'there is one of this name already');
    case NO_SUCH_ROW:
      return method === 'DELETE'
        ? problem('resource.in_use', field, 'to be used by nothing', `it is still used by: ${thrown.table}`)
        : problem(
            'resource.reference_unknown',
            field,
            'the id of one of yours',
            'it refers to something that is not there',
          );
    default:
      return problem('resource.inconsistent', field, 'to fit the other fields', 'what it says cannot be');
  }
}

function problem(code: ApiErrorCode, field: string, expected: string, detail: string): ConstraintProblem {
  return { code, detail, errors: [{ field, found: '', expected }] };
}

function isBrokenConstraint(thrown: unknown): thrown is BrokenConstraint {
  if (typeof thrown !== 'object' || thrown === null || !('code' in thrown) || !('constraint' in thrown)) return false;
  const { code, constraint } = thrown;
  return (code === NOT_UNIQUE || code === NO_SUCH_ROW || code === CHECK_FAILED) && typeof constraint === 'string';
}

function fieldOf({ table, constraint }: BrokenConstraint): string {
  const ofTable = typeof table === 'string' ? table : (constraint.split('_')[0] ?? '');
  const column = constraint
    .replace(new RegExp(`^${ofTable}_`), '')
    .replace(/^clan_id_/, '')
    .replace(/_(key|fkey|check)$/, '');
  const name = column.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase());
  return FIELDS[name] ?? name;
}
