import type { NestExpressApplication } from '@nestjs/platform-express';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import type { Response } from 'supertest';
import { openApiDocument } from '#api/documents.js';
import { onceARun } from './once-a-run.js';

type Json = Record<string, unknown>;

interface Route {
  readonly method: string;
  readonly pattern: RegExp;
  readonly path: string;
  readonly responses: Readonly<Record<string, Json>>;
}

/** What was not as the description of the API says. */
const failures: string[] = [];

/** To be asked after every test, so that the test fails whose answers broke the contract. */
export function contractFailures(): string[] {
  return failures.splice(0);
}

/** Holds every response against the description of the API, as a client that was generated from it would. */
export class Contract {
  private readonly ajv: Ajv2020;
  private readonly routes: readonly Route[];
  private readonly validators = new Map<string, ValidateFunction>();

  private constructor(document: Json) {
    forbidUndocumented(document['components']);
    this.ajv = new Ajv2020({ strict: false, allErrors: true, validateFormats: true });
    addFormats.default(this.ajv);
    this.ajv.addSchema(document, 'api');
    const responses = Object((document['components'] as Json)['responses']) as Record<string, Json>;
    this.routes = Object.entries(document['paths'] as Record<string, Record<string, Json>>).flatMap(([path, item]) =>
      Object.entries(item).map(([method, operation]) => ({
        method: method.toUpperCase(),
        path,
        // In capitals and with a slash at the end an address is the same.
        pattern: new RegExp(`^${path.replace(/\{[^}]+\}/g, '[^/]+')}/?$`, 'i'),
        responses: Object.fromEntries(
          Object.entries(operation['responses'] as Record<string, Json>).map(([status, response]) => [
            status,
            typeof response['$ref'] === 'string' ? (responses['Problem'] ?? {}) : response,
          ]),
        ),
      })),
    );
  }

  /** By the description of a service, which no setting changes. */
  static async of(app: NestExpressApplication): Promise<Contract> {
    const describe = (): Json => ({ ...openApiDocument(app) });
    return new Contract(await onceARun('description', describe));
  }

  check(response: Response): void {
    const { method, url } = response.request as unknown as { method: string; url: string };
    const address = new URL(url);
    // What a browser asks before it asks (CORS) is no operation of the API.
    if (method === 'OPTIONS') return;
    // Pages are for people, and no part of the description.
    if (/^\/($|docs|openapi\.json|account|invitation\/)/.test(address.pathname)) return;
    const asked = method === 'HEAD' ? 'GET' : method;
    const route = this.routes.find((known) => known.method === asked && known.pattern.test(address.pathname));
    const where = `${method} ${route?.path ?? address.pathname} ${response.status}`;
    const documented = route === undefined ? undefined : documentedAs(route, response.status);
    if (route !== undefined && documented === undefined) {
      failures.push(`${where}: the status is not documented`);
      return;
    }
    // An address that does not exist is answered by a problem like everything else that goes wrong.
    const content = documented === undefined ? PROBLEM : ((documented['content'] ?? {}) as Record<string, Json>);
    const type = (response.headers['content-type'] ?? '').split(';')[0] ?? '';
    if (type === '') {
      if (Object.keys(content).length > 0 && method !== 'HEAD') failures.push(`${where}: answers with nothing`);
      return;
    }
    const media = content[type];
    if (media === undefined) {
      failures.push(`${where}: ${type} is not documented`);
      return;
    }
    if (!type.endsWith('json') || method === 'HEAD') return;
    this.checkBody(where, media['schema'] as Json | undefined, response.body, address.searchParams.has('fields'));
  }

  private checkBody(where: string, schema: Json | undefined, body: unknown, sparse: boolean): void {
    if (schema === undefined) {
      failures.push(`${where}: its JSON has no schema`);
      return;
    }
    const validate = this.validator(schema);
    if (validate(body)) return;
    // Who asks for some fields alone gets them alone.
    const wrong = (validate.errors ?? []).filter(({ keyword }) => !(sparse && keyword === 'required'));
    for (const { instancePath, message, params } of wrong.slice(0, 5)) {
      failures.push(`${where}: ${instancePath || 'the body'} ${message ?? ''} ${JSON.stringify(params)}`);
    }
  }

  private validator(schema: Json): ValidateFunction {
    const key = JSON.stringify(schema);
    const known = this.validators.get(key);
    if (known !== undefined) return known;
    const absolute = JSON.parse(key.replaceAll('"#/components/', '"api#/components/')) as Json;
    const compiled = this.ajv.compile(absolute);
    this.validators.set(key, compiled);
    return compiled;
  }
}

const PROBLEM: Record<string, Json> = {
  'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } },
  'text/html': {},
};

function documentedAs({ responses }: Route, status: number): Json | undefined {
  return responses[String(status)] ?? responses[`${String(status)[0] ?? ''}XX`];
}

/** Nothing is answered that the description does not name. */
function forbidUndocumented(node: unknown): void {
  if (Array.isArray(node)) node.forEach(forbidUndocumented);
  if (typeof node !== 'object' || node === null) return;
  const schema = node as Json;
  if (
    typeof schema['properties'] === 'object' &&
    schema['additionalProperties'] === undefined &&
    schema['allOf'] === undefined
  ) {
    schema['additionalProperties'] = false;
  }
  for (const [name, child] of Object.entries(schema)) if (name !== 'example') forbidUndocumented(child);
}
