import { ValidationPipe, type LogLevel as NestLevel } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import type { NestExpressApplication } from '@nestjs/platform-express';
import helmet from 'helmet';
import { AppModule } from './app.module.js';
import { fieldProblems } from './common/field-problems.js';
import { ProblemFilter } from './common/problem.filter.js';
import { ApiError } from './common/problems.js';
import { assignRequestId } from './common/request-id.js';
import type { LogLevel, Settings } from './config/settings.js';
import { serveDocuments } from './documents.js';

/** Bodies of JSON are small here; whole files go to the import, which spools them. */
const JSON_BODY_LIMIT = '256kb';

/** What Nest prints at each level of the settings. */
const LOGGERS: Readonly<Record<LogLevel, NestLevel[] | false>> = {
  silent: false,
  error: ['fatal', 'error'],
  warn: ['fatal', 'error', 'warn'],
  info: ['fatal', 'error', 'warn', 'log'],
  debug: ['fatal', 'error', 'warn', 'log', 'debug', 'verbose'],
};

/** The service as it runs in production, the demo and the tests alike. */
export async function createApp(settings: Settings, serviceUrl: string): Promise<NestExpressApplication> {
  const app = await NestFactory.create<NestExpressApplication>(AppModule.with(settings, serviceUrl), {
    bodyParser: false,
    logger: LOGGERS[settings.logLevel],
  });
  app.disable('x-powered-by');
  app.use(assignRequestId);
  app.use(
    helmet({
      // Served over plain http on a private machine, the page must not be told to fetch its parts over https.
      contentSecurityPolicy: { directives: { 'upgrade-insecure-requests': null } },
      strictTransportSecurity: false,
    }),
  );
  app.useBodyParser('json', { limit: JSON_BODY_LIMIT });
  app.useGlobalPipes(
    new ValidationPipe({
      transform: true,
      whitelist: true,
      forbidNonWhitelisted: true,
      exceptionFactory: (errors) =>
        new ApiError('request.invalid', 'some fields are not valid', { errors: fieldProblems(errors) }),
    }),
  );
  app.useGlobalFilters(new ProblemFilter());
  app.enableShutdownHooks();
  serveDocuments(app);
  return app;
}
