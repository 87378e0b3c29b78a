import { ApiError, PROBLEMS } from '../../common/problems.js';
import { raisedProblem } from '../../common/raised-problem.js';

interface TellableProblem {
  readonly status: number;
  readonly detail: string;
  readonly retryAfterSeconds?: number | undefined;
}

/** @throws whatever is nothing that the person could mend */
export function problemOf(error: unknown): TellableProblem {
  if (error instanceof ApiError) {
    const fields = (error.details.errors ?? []).map(({ field, expected }) => `${field}: ${expected}`);
    const { retryAfterSeconds } = error.details;
    return { status: PROBLEMS[error.code].status, detail: [error.message, ...fields].join('; '), retryAfterSeconds };
  }
  const raised = raisedProblem(error);
  if (raised === null) throw error;
  return { status: PROBLEMS[raised.code].status, detail: raised.detail };
}
