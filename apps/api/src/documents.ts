import type { NestExpressApplication } from '@nestjs/platform-express';
import { DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import swaggerUi from 'swagger-ui-express';
import { CODE_VERSION } from './config/code-version.js';
import { completeDocument } from './openapi/complete-document.js';

/** The API's own description: what can be asked, what is answered, and how it goes wrong. */
export function openApiDocument(app: NestExpressApplication): OpenAPIObject {
  const description = new DocumentBuilder()
    .setOpenAPIVersion('3.1.0')
    .setTitle('Roundbook')
    .setDescription(
      'The book on your next opponent, one bracket round at a time. ' +
        "An event's own rules say whether aids may be used during play; footage and data of other people are used " +
        "under the event's rules and the law of the place.",
    )
    .setVersion(CODE_VERSION)
    .setLicense('MIT', 'https://opensource.org/license/mit')
    .addBearerAuth({ type: 'http', scheme: 'bearer', description: 'an API key: rbk_...' })
    .addCookieAuth('roundbook', {
      type: 'apiKey',
      in: 'cookie',
      name: 'roundbook',
      description:
        "a session, from signing in; `__Host-roundbook` over TLS. What changes something also needs the session's csrfToken as X-CSRF-Token",
    })
    .build();
  return completeDocument(SwaggerModule.createDocument(app, description));
}

/** Serves the description at /openapi.json, and as a page at /docs. */
export function serveDocuments(app: NestExpressApplication): void {
  const document = openApiDocument(app);
  app.use('/docs', swaggerUi.serve, swaggerUi.setup(document, { customSiteTitle: 'Roundbook: the API' }));
  app.use('/openapi.json', (_request: Request, response: Response) => {
    response.json(document);
  });
}
