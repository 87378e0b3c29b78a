import type { BracketProblem } from '#domain/bracket/bracket-problems.js';
import { DomainError } from '#domain/domain-error.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';

/** A refusal of the domain in the words of the API, with the matches that it names; anything else as it is. */
export function asApiError(error: unknown, matchNames: readonly string[]): unknown {
  if (!(error instanceof DomainError)) return error;
  switch (error.code) {
    case 'bracket.invalid': {
      const problems = error.details['problems'] as readonly BracketProblem[];
      const errors = problems.slice(0, 20).map(({ kind, match, words }): FieldProblem => ({
        field: match === null ? 'bracket' : (matchNames[match] ?? `match ${match + 1}`),
        found: kind,
        expected: words,
      }));
      return new ApiError(
        'bracket.invalid',
        problems
          .map(({ words }) => words)
          .slice(0, 3)
          .join('; '),
        {
          errors,
          totalErrors: problems.length,
        },
      );
    }
    case 'bracket.result_breaks': {
      const matches = error.details['matches'] as readonly number[];
      const errors = matches.map((match): FieldProblem => ({
        field: matchNames[match] ?? `match ${match + 1}`,
        found: 'a result',
        expected: 'none, or "drop": true to take it back',
      }));
      return new ApiError('bracket.result_breaks', error.message, { errors });
    }
    case 'bracket.match_not_ready':
    case 'bracket.result_invalid':
      return new ApiError(error.code, error.message);
    case 'stats.invalid_count':
      return new ApiError('bracket.invalid', error.message);
    default:
      return error;
  }
}
