import { FORECAST_TARGETS, type ForecastTarget } from '#domain/forecast/targets.js';
import { isPlainObject } from '../../common/merge-patch.js';
import { printed } from '../../common/printed.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import { MOST_CALLS, MOST_PLAYS } from './next-call.dto.js';

type Snap = Readonly<Record<string, unknown>>;

/** What is asked, every part of it there. What the snaps say is read later, in the clan's words. */
export interface NextCallQuestion {
  readonly target: ForecastTarget;
  readonly snap: Snap;
  readonly gameSoFar: readonly Snap[];
  readonly top: number;
}

const DEFAULT_TARGET: ForecastTarget = 'call-family';
const DEFAULT_TOP = 3;
const KNOWN: ReadonlySet<string> = new Set(['target', 'snap', 'gameSoFar', 'top']);

/**
 * By hand: the rules of classes copy what they check, deep down, and a game in progress is sent whole with every question.
 *
 * @throws ApiError `request.invalid` with every field that does not fit
 */
export function readQuestion(body: Snap): NextCallQuestion {
  const errors: FieldProblem[] = [];
  const refuse = (field: string, found: unknown, expected: string): void => {
    errors.push({ field, found: printed(found), expected });
  };
  const { target = DEFAULT_TARGET, snap, gameSoFar = [], top = DEFAULT_TOP } = body;
  for (const name of Object.keys(body)) if (!KNOWN.has(name)) refuse(name, body[name], 'no such field');
  const known = FORECAST_TARGETS.find((candidate) => candidate === target);
  if (known === undefined) refuse('target', target, `one of ${FORECAST_TARGETS.join(', ')}`);
  if (!isPlainObject(snap)) refuse('snap', snap, 'an object of fields of the snap to come');
  const isTop = typeof top === 'number' && Number.isInteger(top) && top >= 1 && top <= MOST_CALLS;
  if (!isTop) refuse('top', top, `a whole number from 1 to ${MOST_CALLS}`);
  const plays = Array.isArray(gameSoFar) ? (gameSoFar as unknown[]) : null;
  if (plays === null || plays.length > MOST_PLAYS)
    refuse('gameSoFar', gameSoFar, `a list of at most ${MOST_PLAYS} snaps`);
  else {
    plays.forEach((play, at) => {
      if (!isPlainObject(play)) refuse(`gameSoFar.${at}`, play, 'an object of fields of a snap');
    });
  }
  if (errors.length > 0 || known === undefined || !isPlainObject(snap) || !isTop) {
    throw new ApiError('request.invalid', 'some fields are not valid', { errors });
  }
  return { target: known, snap, gameSoFar: (plays ?? []).filter(isPlainObject), top };
}
