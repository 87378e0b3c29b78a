import { Catch, HttpException, Logger, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import type { Request, Response } from 'express';
import { DomainError } from '#domain/domain-error.js';
import { problemPage } from '../rendering/page/problem-page.js';
import { asksForPage } from './asks-for-page.js';
import { constraintProblem } from './constraint-problem.js';
import { negotiated, pageFrame } from './page-policy.js';
import { without } from './without.js';
import { raisedProblem } from './raised-problem.js';
import { requestId } from './request-id.js';
import { ApiError, DOMAIN_PROBLEMS, PROBLEMS, type ApiErrorCode, type FieldProblem } from './problems.js';

/**
 * Turns whatever was thrown into problem details (RFC 9457), or a page for a person in a browser, and keeps what only we
 * should know in the log.
 */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  private readonly log = new Logger(ProblemFilter.name);

  catch(thrown: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<Request>();
    const response = host.switchToHttp().getResponse<Response>();
    // A client that has left, or an answer that is already on its way, cannot be told anything.
    if (response.headersSent || response.destroyed) return;
    const problem = this.problemOf(thrown, request.method);
    const retryAfterSeconds = thrown instanceof ApiError ? thrown.details.retryAfterSeconds : undefined;
    if (retryAfterSeconds !== undefined) response.setHeader('Retry-After', retryAfterSeconds);
    if (problem.status >= 500) this.log.error({ requestId: requestId(response), error: describe(thrown) });
    if (problem.status === 401) response.setHeader('WWW-Authenticate', 'Bearer realm="roundbook"');
    // What is left of a body that was refused is not worth reading to the end on this connection.
    if (problem.status === 413) response.setHeader('Connection', 'close');
    response.status(problem.status);
    if (asksForPage(request)) {
      const frame = pageFrame('any');
      const view = { ...problem, path: request.path, requestId: requestId(response) };
      response.type(negotiated(response, 'text/html', frame)).end(problemPage(view, frame));
      return;
    }
    response
      .type('application/problem+json')
      // Not send(), which would give the problem an entity tag, as if it were the resource.
      .end(JSON.stringify({ ...problem, instance: request.path, requestId: requestId(response) }));
  }

  private problemOf(thrown: unknown, method: string): ProblemBody {
    if (thrown instanceof ApiError) {
      return { ...head(thrown.code), detail: thrown.message, ...without(thrown.details, 'retryAfterSeconds') };
    }
    if (thrown instanceof DomainError) {
      const mapped = DOMAIN_PROBLEMS[thrown.code];
      return mapped === undefined
        ? head('server.unexpected')
        : { ...mapped, code: thrown.code, detail: thrown.message };
    }
    if (thrown instanceof HttpException) return frameworkProblem(thrown);
    if (isBodyParserError(thrown)) return bodyProblem(thrown);
    if (isDatabaseOverload(thrown)) return head('server.busy');
    if (isUnusableValue(thrown)) return { ...head('request.invalid'), detail: 'a value cannot be stored as it is' };
    const raised = raisedProblem(thrown);
    if (raised !== null) return { ...head(raised.code), detail: raised.detail };
    const broken = constraintProblem(thrown, method);
    if (broken !== null) return { ...head(broken.code), detail: broken.detail, errors: broken.errors };
    return head('server.unexpected');
  }
}

interface ProblemBody {
  readonly type?: string;
  readonly title: string;
  readonly status: number;
  readonly code: string;
  readonly detail?: string;
  readonly errors?: readonly FieldProblem[];
}

function head(code: ApiErrorCode): ProblemBody {
  return { type: `urn:roundbook:problem:${code}`, ...PROBLEMS[code], code };
}

function frameworkProblem(thrown: HttpException): ProblemBody {
  const status = thrown.getStatus();
  if (status === 404) return { ...head('request.not_found'), detail: thrown.message };
  if (status === 413) return head('request.too_large');
  if (status < 500) return { ...head('request.invalid'), status, detail: thrown.message };
  return head('server.unexpected');
}

interface BodyParserError {
  readonly type: string;
  readonly status: number;
  readonly message: string;
}

/** Express' body parser throws plain errors that carry a `type`, such as `entity.too.large`. */
function isBodyParserError(thrown: unknown): thrown is BodyParserError {
  return thrown instanceof Error && 'type' in thrown && typeof thrown.type === 'string' && 'status' in thrown;
}

function bodyProblem(thrown: BodyParserError): ProblemBody {
  if (thrown.type === 'entity.too.large') return head('request.too_large');
  if (thrown.type === 'encoding.unsupported' || thrown.type === 'charset.unsupported') {
    return head('request.unsupported_type');
  }
  if (thrown.type === 'request.aborted' || thrown.type === 'request.size.invalid') return head('request.incomplete');
  return { ...head('request.invalid'), detail: 'the body is not valid JSON' };
}

/** Statement or lock timeouts, too many connections, a server that is shutting down or not there. */
const OVERLOAD: ReadonlySet<unknown> = new Set(['57014', '55P03', '53300', '57P01', '57P03', 'ECONNREFUSED']);

function isDatabaseOverload(thrown: unknown): boolean {
  return thrown instanceof Error && 'code' in thrown && OVERLOAD.has(thrown.code);
}

/** Text with a zero byte, a date that is not in the calendar, a number beyond its type: what no check caught before. */
const UNUSABLE: ReadonlySet<unknown> = new Set(['22003', '22007', '22008', '22021', '22P02', '22P05']);

function isUnusableValue(thrown: unknown): boolean {
  return thrown instanceof Error && 'code' in thrown && UNUSABLE.has(thrown.code);
}

function describe(thrown: unknown): string {
  return thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown);
}
