import { UNKNOWN_CODE } from '../charting/play-columns.js';
import type { CodeFieldName } from '../charting/play-fields.js';
import type { AnswerModel } from './answer-model.js';
import type { CallOption } from './options.js';

/**
 * An offensive call that is asked about: a concept, a family, a formation, or any of them together. Terms canonical; a
 * part that is left out is open. All open asks about everything.
 */
export interface AskedCall {
  readonly conceptId?: number | null;
  readonly familyId?: number | null;
  readonly formationId?: number | null;
}

/** A defensive call that is asked about: what a defense plays, for what has beaten it. */
export interface AskedDefense {
  readonly frontId?: number | null;
  readonly coverageId?: number | null;
  readonly pressureId?: number | null;
}

const CALL_FIELDS = [
  ['concept', 'conceptId'],
  ['callFamily', 'familyId'],
  ['formation', 'formationId'],
] as const satisfies readonly (readonly [CodeFieldName, keyof AskedCall])[];

const DEFENSE_FIELDS = [
  ['front', 'frontId'],
  ['coverage', 'coverageId'],
  ['pressure', 'pressureId'],
] as const satisfies readonly (readonly [CodeFieldName, keyof AskedDefense])[];

/** Ascending places of the plays that are the call, of those that take part. */
export function playsOfCall(model: AnswerModel, asked: AskedCall): Int32Array {
  return takingPart(model, callTests(model, asked));
}

/** Ascending places of the plays against that defense, of those that take part. */
export function playsAgainst(model: AnswerModel, asked: AskedDefense): Int32Array {
  return takingPart(model, defenseTests(model, asked));
}

/** Of a play on which every part that is asked for is known: it is the call, or another one. */
export const [IS_ASKED, IS_ANOTHER] = [0, 1];

/** For every play of the field whether it is the call: IS_ASKED, IS_ANOTHER, or UNKNOWN_CODE where a part is not known. */
export function callCodes(model: Pick<AnswerModel, 'facts' | 'vocabulary'>, asked: AskedCall): Int16Array {
  return codesWhere(model, callTests(model, asked));
}

/** The same of a defense. */
export function defenseCodes(model: Pick<AnswerModel, 'facts' | 'vocabulary'>, asked: AskedDefense): Int16Array {
  return codesWhere(model, defenseTests(model, asked));
}

/** The call of some plays as an option: its levels by how often they occur among them. */
export function optionOf(model: AnswerModel, label: string, places: Int32Array): CallOption {
  return optionFrom(model.calls.codes, `call:${label}`, label, places, () => true);
}

/** The defense of some plays as an option; what was not seen has no part in it. */
export function defenseOptionOf(model: AnswerModel, label: string, places: Int32Array): CallOption {
  const { codes, levels } = model.answers;
  return optionFrom(codes, `defense:${label}`, label, places, (level) => levels[level]?.detail !== 'not seen');
}

function optionFrom(
  codes: Int16Array,
  key: string,
  label: string,
  places: Int32Array,
  takes: (level: number) => boolean,
): CallOption {
  const counts = new Map<number, number>();
  let total = 0;
  for (const play of places) {
    const level = codes[play] ?? -1;
    if (level < 0 || !takes(level)) continue;
    counts.set(level, (counts.get(level) ?? 0) + 1);
    total += 1;
  }
  const levels = [...counts].map(([level, count]) => ({ level, weight: count / total }));
  return { key, label, menu: null, levels, byItsLike: false };
}

/** One field of plays, and which of its codes are the one asked for. */
interface FieldTest {
  readonly codes: Int8Array | Int16Array;
  readonly fits: readonly boolean[];
}

type Terms = Pick<AnswerModel, 'facts' | 'vocabulary'>;

function callTests(model: Terms, asked: AskedCall): FieldTest[] {
  return CALL_FIELDS.flatMap(([field, part]) => fieldTest(model, field, asked[part] ?? null));
}

function defenseTests(model: Terms, asked: AskedDefense): FieldTest[] {
  return DEFENSE_FIELDS.flatMap(([field, part]) => fieldTest(model, field, asked[part] ?? null));
}

function fieldTest({ facts, vocabulary }: Terms, field: CodeFieldName, term: number | null): FieldTest[] {
  if (term === null) return [];
  const { codes, meanings } = facts.plays.code(field);
  return [{ codes, fits: meanings.map((meaning) => vocabulary.isWithin(meaning, term)) }];
}

function codesWhere({ facts }: Terms, tests: readonly FieldTest[]): Int16Array {
  const asked = new Int16Array(facts.plays.count).fill(IS_ASKED);
  for (const { codes, fits } of tests) {
    for (let play = 0; play < asked.length; play += 1) {
      const code = codes[play] ?? UNKNOWN_CODE;
      if (code < 0) asked[play] = UNKNOWN_CODE;
      else if (asked[play] === IS_ASKED && fits[code] !== true) asked[play] = IS_ANOTHER;
    }
  }
  return asked;
}

/** A part that is not known fits none. */
function takingPart({ takesPart }: AnswerModel, [first, ...others]: readonly FieldTest[]): Int32Array {
  const places = new Int32Array(takesPart.length);
  let size = 0;
  // A plain loop for the archive's million plays; what is left is filtered.
  for (let play = 0; play < takesPart.length; play += 1) {
    if (takesPart[play] !== 1 || (first !== undefined && !fitsAt(first, play))) continue;
    places[size] = play;
    size += 1;
  }
  return others.reduce((left, test) => left.filter((play) => fitsAt(test, play)), places.subarray(0, size));
}

function fitsAt({ codes, fits }: FieldTest, play: number): boolean {
  const code = codes[play] ?? UNKNOWN_CODE;
  return code >= 0 && fits[code] === true;
}
