import { randomBytes } from 'node:crypto';
import { Pool } from 'pg';
import { secureDatabase, urlFor, OWNER_ROLE, SERVICE_ROLE, type DatabaseUrls } from '#api/database/bootstrap.js';
import { ClanTransactions } from '#api/database/clan-transaction.js';
import { connected } from '#api/database/connected.js';
import { createServicePool } from '#api/database/service-pool.js';
import { databaseServer } from './database-server.js';
import { MAKING_PATIENCE_MS } from './once-a-run.js';

// Whichever test file comes first starts the server inside its own beforeAll, and a container may take its time.
jest.setTimeout(MAKING_PATIENCE_MS);

/** A migrated database of one test file's own. */
export interface TestDatabase extends DatabaseUrls {
  readonly name: string;
  /** As the owner of the tables: sees and changes everything. */
  readonly owner: Pool;
  /** As requests do, with no clan entered. */
  readonly service: Pool;
  /** As the features do. */
  readonly transactions: ClanTransactions;
  /** Ends the connections; the database stays until the run is over. */
  leave(): Promise<void>;
  drop(): Promise<void>;
}

export interface TestDatabaseOptions {
  /** Name of the database that it is a copy of; the migrated one of this run when left out. */
  readonly copyOf?: string;
}

/** For tests of the migrations themselves: PostgreSQL's own. */
export const EMPTY_DATABASE = 'template0';

/** To be called in `beforeAll`, and dropped in `afterAll`. */
export async function createTestDatabase({ copyOf }: TestDatabaseOptions = {}): Promise<TestDatabase> {
  const server = await databaseServer();
  const name = `${server.template}_${randomBytes(6).toString('hex')}`;
  await connected(server.adminUrl, async (admin) => {
    await admin.query(`create database ${name} template ${copyOf ?? server.template}`);
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
  const leave = async (): Promise<void> => {
    await Promise.all([owner.end(), service.end()]);
  };
  return {
    name,
    ownerUrl,
    serviceUrl,
    owner,
    service,
    transactions: new ClanTransactions(service),
    leave,
    drop: async () => {
      await leave();
      await connected(server.adminUrl, (admin) => admin.query(`drop database ${name} with (force)`));
    },
  };
}
