import type { ValidationError } from 'class-validator';
import type { FieldProblem } from './problems.js';

/** What class-validator found wrong, as fields with what was found and what was expected; nested fields by dots. */
export function fieldProblems(errors: readonly ValidationError[], prefix = ''): FieldProblem[] {
  return errors.flatMap((error) => {
    const field = `${prefix}${error.property}`;
    const own = Object.values(error.constraints ?? {}).map((message) => ({
      field,
      found: printed(error.value),
      expected: message.replace(`${error.property} `, ''),
    }));
    return [...own, ...fieldProblems(error.children ?? [], `${field}.`)];
  });
}

function printed(value: unknown): string {
  if (value === undefined || value === null) return '';
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return text.slice(0, 100);
}
