import type { CanActivate, ExecutionContext, Type } from '@nestjs/common';
import type { Request, Response } from 'express';
import { etagOfText } from './etag.js';
import type { FieldProblem } from './problems.js';
import { ApiError } from './problems.js';
import { setShaping } from './shaped-answer.js';
import { documentedFields, sparse, wantedFields } from './sparse-fields.js';

/*
 * Guards that always let in: they read the request before the handler and shape what it returns. Interceptors are made for
 * that, but Nest then carries every answer through streams, which took a tenth of reading one row.
 */

interface Exchange {
  readonly request: Request;
  readonly response: Response;
}

function exchangeOf(context: ExecutionContext): Exchange {
  const http = context.switchToHttp();
  return { request: http.getRequest<Request>(), response: http.getResponse<Response>() };
}

/**
 * The resource as it is sent, its tag in the headers. A tag may be kept and asked again, but never used without asking:
 * what a clan may see can end at any moment.
 */
function tagged({ response }: Exchange, body: object): string {
  const json = JSON.stringify(body);
  response.setHeader('ETag', etagOfText(json)).setHeader('Cache-Control', 'private, no-cache');
  response.type('application/json');
  return json;
}

/** One resource: its entity tag, and only the fields that were asked for. The framework answers 304 by the tag. */
export class OneAnswer implements CanActivate {
  private readonly known: ReadonlySet<string>;

  constructor(type: Type) {
    this.known = documentedFields(type);
  }

  canActivate(context: ExecutionContext): true {
    const exchange = exchangeOf(context);
    refuseOtherParameters(exchange.request);
    const wanted = wantedFields(exchange.request.query['fields'], this.known);
    setShaping(exchange.response, (body) => {
      const json = tagged(exchange, body);
      return wanted === null ? json : JSON.stringify(sparse(body, wanted));
    });
    return true;
  }
}

function refuseOtherParameters({ query }: Request): void {
  const others = Object.keys(query).filter((name) => name !== 'fields');
  if (others.length === 0) return;
  const errors = others.map((field): FieldProblem => ({ field, found: '', expected: 'no such parameter' }));
  throw new ApiError('request.invalid', 'some parameters do not exist', { errors });
}

interface Page {
  readonly items: readonly object[];
  readonly next: string | null;
}

/** One page of a list: the address of the next as a link, and of every item only the fields that were asked for. */
export class PageAnswer implements CanActivate {
  private readonly known: ReadonlySet<string>;

  constructor(item: Type) {
    this.known = documentedFields(item);
  }

  canActivate(context: ExecutionContext): true {
    const { request, response } = exchangeOf(context);
    const wanted = wantedFields(request.query['fields'], this.known);
    setShaping(response, (body) => {
      // What the handler of a list returns, which `ReadsPage` documents.
      const page = body as Page;
      if (page.next !== null) response.setHeader('Link', `<${addressAfter(request, page.next)}>; rel="next"`);
      response.setHeader('Cache-Control', 'private, no-cache');
      return { ...page, items: page.items.map((item) => sparse(item, wanted)) };
    });
    return true;
  }
}

/** The same list from the given key on (RFC 8288 allows a reference that is relative to the request's own address). */
function addressAfter(request: Request, after: string): string {
  const parameters = new URLSearchParams();
  for (const [name, value] of Object.entries(request.query)) {
    if (name !== 'after' && typeof value === 'string') parameters.set(name, value);
  }
  parameters.set('after', after);
  return `${request.path}?${parameters.toString()}`;
}

/** A new resource: its entity tag and its address. */
export class CreatedAnswer implements CanActivate {
  constructor(
    private readonly key: string,
    private readonly under: string | null,
  ) {}

  canActivate(context: ExecutionContext): true {
    const exchange = exchangeOf(context);
    setShaping(exchange.response, (body) => {
      const id: unknown = Reflect.get(body, this.key);
      const list = this.under ?? exchange.request.path.replace(/\/$/, '');
      exchange.response.setHeader('Location', `${list}/${String(id)}`);
      return tagged(exchange, body);
    });
    return true;
  }
}
