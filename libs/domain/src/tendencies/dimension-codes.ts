import { UNKNOWN_CODE, UNKNOWN_NUMBER } from '../charting/play-columns.js';
import { playField, type CodeFieldName, type NumberFieldName } from '../charting/play-fields.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import type { DimensionValue } from './dimension-names.js';
import type { TendencyPlays } from './tendency-plays.js';

/** A dimension read off a batch of plays. */
export interface DimensionCodes {
  /** One a play: place in `values`, -1 where it is not known. */
  readonly codes: Int16Array;
  readonly values: readonly DimensionValue[];
}

/** A value that is fixed words rather than a term of the vocabulary. */
export function wordValue(words: string): DimensionValue {
  return { key: words, termId: null, label: words };
}

/** A term or choice field as it stands. The batch's terms are taken as they were gathered: counted as canonical. */
export function fieldCodes(name: CodeFieldName, facts: TendencyPlays, vocabulary: Vocabulary): DimensionCodes {
  const { codes, meanings } = facts.plays.code(name);
  return { codes: new Int16Array(codes), values: meanings.map((meaning) => valueOf(name, meaning, vocabulary)) };
}

function valueOf(name: CodeFieldName, meaning: number, vocabulary: Vocabulary): DimensionValue {
  const field = playField(name);
  if (field?.type === 'choice') return wordValue(field.choices[meaning] ?? `choice ${meaning}`);
  return { key: `term:${meaning}`, termId: meaning, label: vocabulary.byId(meaning)?.name ?? `term ${meaning}` };
}

/** Number of a class for each play's number, -1 for none; the classes are fixed words. */
export function classCodes(
  name: NumberFieldName,
  facts: TendencyPlays,
  classes: readonly string[],
  classOf: (value: number) => number,
): DimensionCodes {
  const { values } = facts.plays.number(name);
  const codes = new Int16Array(values.length);
  for (let play = 0; play < values.length; play += 1) {
    const value = values[play] ?? UNKNOWN_NUMBER;
    codes[play] = value === UNKNOWN_NUMBER ? UNKNOWN_CODE : classOf(value);
  }
  return { codes, values: classes.map(wordValue) };
}
