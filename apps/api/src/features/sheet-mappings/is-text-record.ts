import { ValidateBy } from 'class-validator';

const MOST_ENTRIES = 100;
const LONGEST_TEXT = 200;

/** An object of short texts, such as the fields that a word fills. */
export function IsTextRecord(): PropertyDecorator {
  return ValidateBy({
    name: 'isTextRecord',
    validator: {
      validate: isTextRecord,
      defaultMessage: () => `an object of at most ${MOST_ENTRIES} texts, each of at most ${LONGEST_TEXT} characters`,
    },
  });
}

function isTextRecord(value: unknown): boolean {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  const texts = Object.values(value);
  return texts.length <= MOST_ENTRIES && texts.every((text) => typeof text === 'string' && text.length <= LONGEST_TEXT);
}
