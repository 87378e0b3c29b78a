import { IncomingMessage, ServerResponse } from 'node:http';
import { Socket } from 'node:net';
import { ConsoleLogger, type LogLevel as NestLevel } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import type { NestExpressApplication } from '@nestjs/platform-express';
import { json, urlencoded, type NextFunction, type Request, type RequestHandler, type Response } from 'express';
import helmet from 'helmet';
import { AppModule } from './app.module.js';
import { PATCH_TYPES } from './common/change.js';
import { FieldsPipe } from './common/fields.pipe.js';
import { keepRules } from './common/keep-rules.js';
import { ProblemFilter } from './common/problem.filter.js';
import { rateLimit } from './common/rate-limit.js';
import { assignRequestId } from './common/request-id.js';
import { logRequest } from './common/request-log.js';
import type { LogLevel, Settings } from './config/settings.js';
import { serveDocuments } from './documents.js';
import { PUBLIC_URL } from './features/access/session-cookie.js';
import { OneShapeAdapter } from './one-shape-adapter.js';

/** Bodies of JSON are small here; whole files go to the import, which spools them. */
const JSON_BODY_LIMIT = '256kb';
const FORM_LIMIT = '16kb';

/** What a page of another origin may read of an answer, beside its body. */
const READ_BY_PAGES = ['ETag', 'Link', 'Location', 'RateLimit', 'RateLimit-Policy', 'Retry-After', 'X-Request-Id'];

/** What Nest prints at each level of the settings. */
const LEVELS: Readonly<Record<LogLevel, NestLevel[]>> = {
  silent: [],
  error: ['fatal', 'error'],
  warn: ['fatal', 'error', 'warn'],
  info: ['fatal', 'error', 'warn', 'log'],
  debug: ['fatal', 'error', 'warn', 'log', 'debug', 'verbose'],
};

/** The service as it runs in production, the demo and the tests alike. */
export async function createApp(settings: Settings, serviceUrl: string): Promise<NestExpressApplication> {
  const app = await NestFactory.create<NestExpressApplication>(
    AppModule.with(settings, serviceUrl),
    new OneShapeAdapter(),
    {
      bodyParser: false,
      logger: loggerOf(settings.logLevel),
    },
  );
  app.disable('x-powered-by');
  // Strong tags also for lists, whose bytes are the same whenever their content is.
  app.set('etag', 'strong');
  app.set(PUBLIC_URL, settings.publicUrl);
  if (LEVELS[settings.logLevel].includes('log')) app.use(logRequest);
  const headers = fixedHeaders(settings.publicUrl?.startsWith('https:') === true);
  app.use((_request: Request, response: Response, next: NextFunction) => {
    response.setHeaders(headers);
    assignRequestId(response);
    next();
  });
  if (settings.corsOrigins.length > 0) {
    app.enableCors({ origin: [...settings.corsOrigins], exposedHeaders: READ_BY_PAGES });
  }
  const limit = rateLimit(settings);
  if (limit !== null) app.use(['/v1', '/account', '/invitation'], limit);
  app.use(readBody());
  keepRules();
  app.useGlobalPipes(new FieldsPipe());
  app.useGlobalFilters(new ProblemFilter());
  app.enableShutdownHooks();
  serveDocuments(app);
  return app;
}

/** Reads forms and JSON. Most requests bring no body, and no reader is asked about those, nor about whole files. */
function readBody(): RequestHandler {
  // Forms are for the pages alone: a browser sends them for any site without asking first.
  const readForm = urlencoded({ extended: false, limit: FORM_LIMIT, type: isForm });
  const readJson = json({ limit: JSON_BODY_LIMIT, type: PATCH_TYPES });
  return (request, response, next) => {
    const { 'content-length': length, 'transfer-encoding': encoding } = request.headers;
    if ((length === undefined && encoding === undefined) || isFile(request)) next();
    else if (isForm(request)) readForm(request, response, next);
    else readJson(request, response, next);
  };
}

/** Where the import reads the body itself, whatever type it says it has. */
const FILES = /^\/v1\/(?:imports|games\/[^/]+\/charts)\/?(?:\?|$)/i;

function isFile({ method, url }: IncomingMessage): boolean {
  return method === 'POST' && FILES.test(url ?? '');
}

function isForm({ url, headers }: IncomingMessage): boolean {
  const isOfAPage = url?.startsWith('/account/') === true;
  return isOfAPage && headers['content-type']?.startsWith('application/x-www-form-urlencoded') === true;
}

/** What every answer says, worked out once. */
function fixedHeaders(isSecure: boolean): Map<string, number | string | readonly string[]> {
  const secure = helmet({
    // Served over plain http on a private machine, the page must not be told to fetch its parts over https.
    contentSecurityPolicy: { directives: { 'upgrade-insecure-requests': null } },
    // To be said over TLS only (RFC 6797, section 7.2).
    strictTransportSecurity: isSecure,
  });
  const request = new IncomingMessage(new Socket());
  const response = new ServerResponse(request);
  secure(request, response, () => undefined);
  // Kept by nobody unless the answer says otherwise: most of it is one clan's alone.
  response.setHeader('Cache-Control', 'no-store');
  return new Map(response.getHeaderNames().map((name) => [name, response.getHeader(name) ?? '']));
}

/** One JSON object a line, for machines to read. */
function loggerOf(level: LogLevel): ConsoleLogger | false {
  return level === 'silent' ? false : new ServiceLogger({ json: true, colors: false, logLevels: LEVELS[level] });
}

/** Hundreds of lines at every start that say what the API's description says better. */
const TOLD_TO_DEBUGGERS: ReadonlySet<unknown> = new Set(['InstanceLoader', 'RoutesResolver', 'RouterExplorer']);

class ServiceLogger extends ConsoleLogger {
  override log(message: unknown, ...rest: unknown[]): void {
    if (TOLD_TO_DEBUGGERS.has(rest.at(-1))) this.debug(message, ...rest);
    else super.log(message, ...rest);
  }
}
