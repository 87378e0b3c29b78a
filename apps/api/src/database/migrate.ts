import type { Client } from 'pg';
import type { DataSource } from 'typeorm';
import { OWNER_ROLE } from './bootstrap.js';
import { connected } from './connected.js';
import { ownerDataSource } from './data-source.js';
import { loadStarterVocabulary } from './load-starter-vocabulary.js';

/** Held while migrating, so that two services that start together do not migrate together. */
const MIGRATION_LOCK = 730_402;

export interface Migrated {
  /** Names of the migrations that ran now. */
  readonly migrations: readonly string[];
  /** Starter terms that were new. */
  readonly terms: number;
}

/**
 * Brings the database up to date: migrations, then the starter vocabulary. Does nothing where nothing is missing.
 *
 * @param ownerUrl - connection of `roundbook_owner`
 */
export function migrate(ownerUrl: string): Promise<Migrated> {
  return locked(ownerUrl, async (owner) => {
    const migrations = await withDataSource(ownerUrl, (dataSource) => dataSource.runMigrations());
    return { migrations: migrations.map(({ name }) => name), terms: await loadStarterVocabulary(owner) };
  });
}

/** Takes back the newest migrations; all of them unless told how many. */
export function migrateDown(ownerUrl: string, count = Infinity): Promise<void> {
  return locked(ownerUrl, () =>
    withDataSource(ownerUrl, async (dataSource) => {
      for (let undone = 0; undone < count && (await executed(dataSource)) > 0; undone += 1) {
        await dataSource.undoLastMigration();
      }
    }),
  );
}

async function executed(dataSource: DataSource): Promise<number> {
  const rows: unknown = await dataSource.query('select name from schema_migration');
  return Array.isArray(rows) ? rows.length : 0;
}

function locked<Result>(ownerUrl: string, work: (owner: Client) => Promise<Result>): Promise<Result> {
  return connected(ownerUrl, async (owner) => {
    const { rows } = await owner.query<{ role: string }>('select current_user as role');
    if (rows[0]?.role !== OWNER_ROLE) {
      // A superuser's tables would belong to a role that no policy binds.
      throw new Error(`Migrations run as ${OWNER_ROLE}, but this connection is ${rows[0]?.role ?? 'unknown'}.`);
    }
    await owner.query('select pg_advisory_lock($1)', [MIGRATION_LOCK]);
    return work(owner);
  });
}

async function withDataSource<Result>(
  ownerUrl: string,
  work: (source: DataSource) => Promise<Result>,
): Promise<Result> {
  const dataSource = await ownerDataSource(ownerUrl).initialize();
  try {
    return await work(dataSource);
  } finally {
    await dataSource.destroy();
  }
}
