import type { Server } from 'node:http';
import type { NestExpressApplication } from '@nestjs/platform-express';
import request, { type Response, type Test } from 'supertest';
import type TestAgent from 'supertest/lib/agent.js';
import { createApp } from '#api/create-app.js';
import { readSettings, type Settings } from '#api/config/settings.js';
import { Contract, contractFailures } from './contract.js';
import type { TestClan } from './factories.js';
import { createTestDatabase, type TestDatabase, type TestDatabaseOptions } from './test-database.js';

// Every answer of every test is held against the description of the API.
afterEach(() => {
  expect(contractFailures()).toEqual([]);
});

/** The whole service on a database of its own, as one test file needs it. */
export interface TestApi {
  readonly database: TestDatabase;
  readonly app: NestExpressApplication;
  /** Requests without a key. */
  readonly anonymous: TestAgent<Test>;
  /** The same, each time without whatever cookie an answer had set. */
  browser(): TestAgent<Test>;
  /** The service once more on the same database, with other settings; to be closed by its own `app.close()`. */
  again(settings: Partial<Settings>): Promise<TestApi>;
  /** Requests with the clan's key. */
  as(clan: Pick<TestClan, 'key'>): TestAgent<Test>;
  close(): Promise<void>;
}

/** @param options - of the database */
export async function startTestApi(
  settings: Partial<Settings> = {},
  options: TestDatabaseOptions = {},
): Promise<TestApi> {
  return serve(await createTestDatabase(options), settings);
}

/** One for every service of a file: what it has compiled holds for all of them. */
let contract: Promise<Contract> | null = null;

async function serve(database: TestDatabase, settings: Partial<Settings>): Promise<TestApi> {
  const app = await createApp(
    { ...readSettings({ LOG_LEVEL: 'silent', RATE_LIMIT_REQUESTS: '0' }), ...settings },
    database.serviceUrl,
  );
  await app.init();
  const server: Server = app.getHttpServer();
  const held = await (contract ??= Contract.of(app));
  const agent = (): ReturnType<typeof request.agent> => {
    const checked = request.agent(server);
    checked.on('response', (response: Response) => {
      held.check(response);
    });
    return checked;
  };
  return {
    database,
    app,
    anonymous: agent(),
    browser: agent,
    again: (other) => serve(database, other),
    as: ({ key }) => {
      const withKey = agent();
      withKey.set('Authorization', `Bearer ${key}`);
      return withKey;
    },
    close: async () => {
      await app.close();
      await database.drop();
    },
  };
}

/** A file of records, one a line. */
export function jsonLines(records: readonly Readonly<Record<string, unknown>>[]): string {
  return records.map((record) => `${JSON.stringify(record)}\n`).join('');
}
