import { constraintProblem } from '../../common/constraint-problem.js';
import { ApiError, PROBLEMS, type FieldProblem } from '../../common/problems.js';
import { raisedProblem } from '../../common/raised-problem.js';
import type { Mistakes } from '../../rendering/account/entered-form.js';

export interface TellableProblem {
  readonly status: number;
  readonly detail: string;
  readonly mistakes: Mistakes;
  readonly retryAfterSeconds?: number | undefined;
}

/** @throws whatever is nothing that the person could mend */
export function problemOf(error: unknown): TellableProblem {
  if (error instanceof ApiError) {
    const { retryAfterSeconds, errors = [] } = error.details;
    const { status } = PROBLEMS[error.code];
    return { status, detail: error.message, mistakes: mistakesOf(errors), retryAfterSeconds };
  }
  const broken = constraintProblem(error, 'POST');
  const raised = broken ?? raisedProblem(error);
  if (raised === null) throw error;
  const mistakes = mistakesOf(broken?.errors ?? []);
  return { status: PROBLEMS[raised.code].status, detail: raised.detail, mistakes };
}

/** For a page that does not show mistakes beside their fields. */
export function inOneLine({ detail, mistakes }: TellableProblem): string {
  return [detail, ...Object.entries(mistakes).map(([field, expected]) => `${field}: ${expected}`)].join('; ');
}

/** Of each field the first thing that is wrong with it. */
function mistakesOf(errors: readonly FieldProblem[]): Mistakes {
  return Object.fromEntries(errors.map(({ field, expected }) => [field, expected] as const).reverse());
}
