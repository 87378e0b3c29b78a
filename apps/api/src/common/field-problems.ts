import type { ValidationError } from 'class-validator';
import { plainWords } from './plain-words.js';
import { printed } from './printed.js';
import type { FieldProblem } from './problems.js';

const SECRET = /passphrase|invitation/i;

/** The constraint that class-validator names for what a class does not know. */
const NOT_KNOWN = 'whitelistValidation';

/**
 * What class-validator found wrong, a problem a field, with what was found and all that was expected; nested fields by
 * dots.
 *
 * @param kind - what the fields are to whoever sent them
 */
export function fieldProblems(
  errors: readonly ValidationError[],
  kind: 'parameter' | 'property',
  prefix = '',
): FieldProblem[] {
  return errors.flatMap((error) => {
    const field = `${prefix}${error.property}`;
    const { [NOT_KNOWN]: notKnown, ...rules } = error.constraints ?? {};
    const messages = Object.values(rules).map((message) => message.replace(`${error.property} `, ''));
    const expected = notKnown === undefined ? plainWords(messages) : `is no ${kind} here`;
    // What is secret is not said back.
    const found = SECRET.test(error.property) ? '' : printed(error.value);
    const own = expected === '' ? [] : [{ field, found, expected }];
    return [...own, ...fieldProblems(error.children ?? [], kind, `${field}.`)];
  });
}
