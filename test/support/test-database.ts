import { randomBytes } from 'node:crypto';
import { Pool } from 'pg';
import { secureDatabase, urlFor, OWNER_ROLE, SERVICE_ROLE, type DatabaseUrls } from '#api/database/bootstrap.js';
import { ClanTransactions } from '#api/database/clan-transaction.js';
import { connected } from '#api/database/connected.js';
import { createServicePool } from '#api/database/service-pool.js';
import { databaseServer, START_PATIENCE_MS } from './database-server.js';

// Whichever test file comes first starts the server inside its own beforeAll, and a container may take its time.
jest.setTimeout(START_PATIENCE_MS);

/** A migrated database of one test file's own. */
export interface TestDatabase extends DatabaseUrls {
  readonly name: string;
  /** As the owner of the tables: sees and changes everything. */
  readonly owner: Pool;
  /** As requests do, with no clan entered. */
  readonly service: Pool;
  /** As the features do. */
  readonly transactions: ClanTransactions;
  drop(): Promise<void>;
}

export interface TestDatabaseOptions {
  /** `empty` for tests of the migrations themselves. */
  readonly from?: 'template' | 'empty';
}

/** To be called in `beforeAll`, and dropped in `afterAll`. */
export async function createTestDatabase({ from = 'template' }: TestDatabaseOptions = {}): Promise<TestDatabase> {
  const server = await databaseServer();
  const name = `${server.template}_${randomBytes(6).toString('hex')}`;
  await connected(server.adminUrl, async (admin) => {
    await admin.query(`create database ${name} template ${from === 'template' ? server.template : 'template0'}`);
    await secureDatabase(admin, name);
  });
  const ownerUrl = urlFor(server.adminUrl, name, OWNER_ROLE, server.passwords.owner);
  const serviceUrl = urlFor(server.adminUrl, name, SERVICE_ROLE, server.passwords.service);
  const owner = new Pool({ connectionString: ownerUrl, max: 2 });
  // A connection that has said goodbye may still hear that its database is dropped.
  owner.on('error', () => undefined);
  const service = createServicePool(serviceUrl, {
    poolSize: 4,
    statementTimeoutMs: 30_000,
    idleInTransactionTimeoutMs: 30_000,
  });
  return {
    name,
    ownerUrl,
    serviceUrl,
    owner,
    service,
    transactions: new ClanTransactions(service),
    drop: async () => {
      await Promise.all([owner.end(), service.end()]);
      await connected(server.adminUrl, (admin) => admin.query(`drop database ${name} with (force)`));
    },
  };
}
