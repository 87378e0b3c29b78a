import type { DomainErrorCode } from '#domain/domain-error.js';

/** How one kind of failure is told over HTTP. */
export interface Problem {
  readonly status: number;
  readonly title: string;
}

/** Every way in which the service itself refuses or fails. */
export type ApiErrorCode =
  | 'access.cross_site'
  | 'access.key_missing'
  | 'access.key_refused'
  | 'access.person_needed'
  | 'access.right_missing'
  | 'access.sign_in_refused'
  | 'access.sign_up_closed'
  | 'bracket.incomplete'
  | 'bracket.invalid'
  | 'bracket.match_not_ready'
  | 'bracket.result_breaks'
  | 'bracket.result_invalid'
  | 'chart.reconciled'
  | 'clan.owner_needed'
  | 'clan.quota_reached'
  | 'link.refused'
  | 'feed.position_gone'
  | 'import.changed_since'
  | 'import.refused'
  | 'import.unreadable'
  | 'invitation.refused'
  | 'match.fixed'
  | 'member.already'
  | 'play.order_taken'
  | 'request.incomplete'
  | 'request.invalid'
  | 'request.key_reused'
  | 'request.not_acceptable'
  | 'request.not_found'
  | 'request.precondition_failed'
  | 'request.precondition_required'
  | 'request.too_large'
  | 'request.too_many'
  | 'request.unsupported_type'
  | 'report.nothing_to_scout'
  | 'resource.in_use'
  | 'resource.inconsistent'
  | 'resource.not_found'
  | 'resource.reference_unknown'
  | 'resource.taken'
  | 'server.busy'
  | 'server.unexpected'
  | 'term.fixed'
  | 'term.word_taken';

/** The one table from codes to HTTP; a code that stands in neither union does not compile. */
export const PROBLEMS = {
  'access.cross_site': { status: 403, title: 'The request does not come from a page of this service' },
  'access.key_missing': { status: 401, title: 'An API key or a session is needed' },
  'access.key_refused': { status: 401, title: 'The API key or session is not known, has expired or was revoked' },
  'access.person_needed': { status: 403, title: 'Only a person who has signed in can do this' },
  'access.right_missing': { status: 403, title: 'The API key or member has no right to this' },
  'access.sign_in_refused': { status: 401, title: 'The name or the passphrase is not right' },
  'access.sign_up_closed': { status: 403, title: 'The service has its first clan; others come by invitation' },
  'bracket.incomplete': { status: 422, title: 'The matches of the event do not make a bracket that can be followed' },
  'bracket.invalid': { status: 422, title: 'The bracket cannot be played to its end' },
  'bracket.match_not_ready': { status: 409, title: 'A player of the match is not known yet' },
  'bracket.result_breaks': { status: 409, title: 'Later results were played by others than would now meet' },
  'bracket.result_invalid': { status: 422, title: 'The result does not fit the match' },
  'chart.reconciled': { status: 409, title: 'The chart is made of others and cannot be changed itself' },
  'clan.owner_needed': { status: 409, title: 'A clan cannot be without an owner' },
  'clan.quota_reached': { status: 403, title: 'The clan keeps as much as it may' },
  'link.refused': { status: 404, title: 'The link is not known, has expired or was revoked' },
  'feed.position_gone': { status: 410, title: 'What follows that entry is not all kept any more' },
  'import.changed_since': { status: 409, title: 'What this file once brought in was changed since' },
  'import.refused': { status: 422, title: 'The file has errors; nothing was imported' },
  'import.unreadable': { status: 400, title: 'The file cannot be read; nothing was imported' },
  'invitation.refused': { status: 404, title: 'The invitation is not known, was used or withdrawn, or has expired' },
  'match.fixed': { status: 422, title: 'A result is entered as one, and moves players on' },
  'member.already': { status: 409, title: 'The person is a member of the clan already' },
  'play.order_taken': { status: 409, title: 'The chart has a play of that order in the game' },
  'request.incomplete': { status: 400, title: 'The request ended before its body did' },
  'request.invalid': { status: 400, title: 'The request is not valid' },
  'request.key_reused': { status: 422, title: 'The idempotency key came with another request before' },
  'request.not_acceptable': { status: 406, title: 'None of the accepted media types can be served' },
  'request.not_found': { status: 404, title: 'No such address' },
  'request.precondition_failed': { status: 412, title: 'It was changed since it was read' },
  'request.precondition_required': { status: 428, title: 'A change must say what it was made from' },
  'request.too_large': { status: 413, title: 'The body is larger than allowed' },
  'request.too_many': { status: 429, title: 'Too many requests in a short time' },
  'request.unsupported_type': { status: 415, title: 'The media type of the body is not supported' },
  'report.nothing_to_scout': { status: 422, title: 'The event has no such opponent' },
  'resource.in_use': { status: 409, title: 'It is still used by something else' },
  'resource.inconsistent': { status: 422, title: 'The fields contradict each other' },
  'resource.not_found': { status: 404, title: 'No such resource' },
  'resource.reference_unknown': { status: 422, title: 'It refers to something that is not there' },
  'resource.taken': { status: 409, title: 'There is one of that name already' },
  'server.busy': { status: 503, title: 'The service cannot answer now' },
  'server.unexpected': { status: 500, title: 'The service failed' },
  'term.fixed': { status: 422, title: 'That of a term cannot be changed' },
  'term.word_taken': { status: 409, title: 'The word stands for another term already' },
} satisfies Record<ApiErrorCode, Problem>;

/** A domain error that reaches HTTP unmapped is our own mistake, except where listed here. */
export const DOMAIN_PROBLEMS: Partial<Record<DomainErrorCode, Problem>> = {
  'forecast.too_little': { status: 422, title: 'Too little is charted to forecast from' },
};

/** One thing that is wrong with what was sent: where, what was found, what was expected. */
export interface FieldProblem {
  /** Row of the file, counted as a spreadsheet counts: the header is row 1. Absent outside files. */
  readonly row?: number;
  readonly field: string;
  readonly found: string;
  readonly expected: string;
}

export interface ApiErrorDetails {
  readonly errors?: readonly FieldProblem[];
  /** All problems, also those beyond the listed ones. */
  readonly totalErrors?: number;
  /** Sent as `Retry-After`. */
  readonly retryAfterSeconds?: number;
}

/** A refusal by code; the exception filter turns it into problem details (RFC 9457). */
export class ApiError extends Error {
  override readonly name = 'ApiError';

  constructor(
    readonly code: ApiErrorCode,
    message: string,
    readonly details: ApiErrorDetails = {},
  ) {
    super(message);
  }
}
