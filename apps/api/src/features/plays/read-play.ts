import { checkPlay } from '#domain/charting/check-play.js';
import type { PlayValue } from '#domain/charting/play-columns.js';
import { PLAY_FIELDS, playField } from '#domain/charting/play-fields.js';
import { readCell } from '#domain/charting/read-cell.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { isPlainObject } from '../../common/merge-patch.js';
import { printed } from '../../common/printed.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';

const LATEST_ORDER = 2000;
const LONGEST_NOTE = 2000;
const LONGEST_TRIGGER = 200;
const MOST_SECONDS = 60;
const KNOWN_BY: ReadonlySet<unknown> = new Set(['seen', 'inferred', 'told', 'own call log']);
const DETAILS: ReadonlySet<string> = new Set(['term', 'secondsLeft', 'trigger']);
const ADJUSTMENTS_PLACE = PLAY_FIELDS.findIndex((field) => field.name === 'preSnapAdjustments');
/** In the order of the sheet's columns. */
const SETTABLE = ['offense', 'orderInGame', 'note', ...PLAY_FIELDS.map(({ name }) => name), 'adjustments', 'knownBy'];

/** A play as it is stored, apart from where. */
export interface PlayFacts {
  /** Null: the next one of its chart. */
  readonly orderInGame: number | null;
  readonly offense: 'home' | 'away' | null;
  readonly values: readonly PlayValue[];
  readonly note: string | null;
  readonly adjustments: unknown;
  readonly knownBy: unknown;
}

export const NOTHING_KNOWN: PlayFacts = {
  orderInGame: null,
  offense: null,
  values: PLAY_FIELDS.map(() => null),
  note: null,
  adjustments: null,
  knownBy: null,
};

/**
 * What a play says after a merge patch. Only what the patch names is read, so words that nobody touched stay the very
 * terms that they were charted with.
 *
 * @throws ApiError `request.invalid` with every field that does not fit, or contradicts another
 */
export function patchedPlay(
  before: PlayFacts,
  patch: Readonly<Record<string, unknown>>,
  vocabulary: Vocabulary,
): PlayFacts {
  const errors: FieldProblem[] = [];
  const refuse = (field: string, found: unknown, expected: string): void => {
    errors.push({ field, found: printed(found), expected });
  };
  const values = [...before.values];
  let { orderInGame, offense, note, adjustments, knownBy } = before;
  for (const [name, sent] of Object.entries(patch)) {
    const place = PLAY_FIELDS.findIndex((field) => field.name === name);
    const field = PLAY_FIELDS[place];
    if (field !== undefined) {
      const reading = readCell(field, sent, vocabulary);
      if (reading.ok) values[place] = reading.value;
      else refuse(name, sent, reading.expected);
      // Detail that was given before says something else now.
      if (place === ADJUSTMENTS_PLACE && !('adjustments' in patch)) adjustments = null;
      continue;
    }
    switch (name) {
      case 'offense':
        if (sent === 'home' || sent === 'away') offense = sent;
        else refuse(name, sent, 'home or away');
        break;
      case 'orderInGame':
        if (typeof sent === 'number' && Number.isInteger(sent) && sent >= 1 && sent <= LATEST_ORDER) orderInGame = sent;
        else refuse(name, sent, `a whole number from 1 to ${LATEST_ORDER}`);
        break;
      case 'note':
        if (sent === null || (typeof sent === 'string' && sent.length <= LONGEST_NOTE)) note = sent;
        else refuse(name, sent, `text of at most ${LONGEST_NOTE} characters`);
        break;
      case 'adjustments':
        if (sent === null) adjustments = null;
        else if (Array.isArray(sent) && sent.every(isAdjustment)) adjustments = sent;
        else refuse(name, sent, 'an array of {term, secondsLeft?, trigger?}');
        break;
      case 'knownBy':
        if (sent === null || isKnownBy(sent)) knownBy = sent;
        else refuse(name, sent, `an object of field names with one of: ${[...KNOWN_BY].join(', ')}`);
        break;
      default:
        refuse(name, sent, `one of: ${SETTABLE.join(', ')}`);
    }
  }
  if (Array.isArray(patch['adjustments']) && errors.length === 0) {
    const reading = readTermsOf(patch['adjustments'], vocabulary);
    if (typeof reading === 'string') refuse('adjustments', patch['adjustments'], reading);
    else values[ADJUSTMENTS_PLACE] = reading;
  }
  if (offense === null && !('offense' in patch)) refuse('offense', undefined, 'home or away');
  if (errors.length === 0) errors.push(...checkPlay(values));
  if (errors.length > 0) throw new ApiError('request.invalid', 'some fields of the play are not valid', { errors });
  return { orderInGame, offense, values, note, adjustments, knownBy };
}

function readTermsOf(details: readonly unknown[], vocabulary: Vocabulary): PlayValue | string {
  const field = PLAY_FIELDS[ADJUSTMENTS_PLACE];
  if (field === undefined) return null;
  const words = details.map((detail) => (isPlainObject(detail) ? detail['term'] : undefined));
  const reading = readCell(field, words, vocabulary);
  return reading.ok ? reading.value : reading.expected;
}

function isAdjustment(value: unknown): boolean {
  if (!isPlainObject(value) || typeof value['term'] !== 'string') return false;
  const { secondsLeft, trigger } = value;
  const secondsFit =
    secondsLeft === undefined || (typeof secondsLeft === 'number' && secondsLeft >= 0 && secondsLeft <= MOST_SECONDS);
  const triggerFits = trigger === undefined || (typeof trigger === 'string' && trigger.length <= LONGEST_TRIGGER);
  return secondsFit && triggerFits && Object.keys(value).every((name) => DETAILS.has(name));
}

function isKnownBy(value: unknown): boolean {
  return (
    isPlainObject(value) &&
    Object.entries(value).every(([name, how]) => playField(name) !== undefined && KNOWN_BY.has(how))
  );
}
