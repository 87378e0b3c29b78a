import { DataSource } from 'typeorm';
import { MIGRATIONS } from '#migrations/index.js';

/**
 * TypeORM's data source of the owner: it runs the migrations, and nothing else does. Requests go through
 * `ClanTransactions`, as the service's role.
 */
export function ownerDataSource(ownerUrl: string): DataSource {
  return new DataSource({
    type: 'postgres',
    url: ownerUrl,
    synchronize: false,
    migrationsRun: false,
    migrations: MIGRATIONS,
    migrationsTableName: 'schema_migration',
    migrationsTransactionMode: 'each',
    // The schema asks for nothing that would have to be installed.
    installExtensions: false,
    extra: { max: 2 },
  });
}
