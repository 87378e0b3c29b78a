import type { ValidationError } from 'class-validator';
import { printed } from './printed.js';
import type { FieldProblem } from './problems.js';

const SECRET = /passphrase|invitation/i;

/** What class-validator found wrong, as fields with what was found and what was expected; nested fields by dots. */
export function fieldProblems(errors: readonly ValidationError[], prefix = ''): FieldProblem[] {
  return errors.flatMap((error) => {
    const field = `${prefix}${error.property}`;
    const own = Object.values(error.constraints ?? {}).map((message) => ({
      field,
      // What is secret is not said back.
      found: SECRET.test(error.property) ? '' : printed(error.value),
      expected: message.replace(`${error.property} `, ''),
    }));
    return [...own, ...fieldProblems(error.children ?? [], `${field}.`)];
  });
}
