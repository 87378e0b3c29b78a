import type { ClientBase, QueryResultRow } from 'pg';
import type { ClanDatabase } from './clan-transaction.js';

/** All that a repository needs which the owner's commands use too. */
export type Querying = Pick<ClanDatabase, 'query'>;

/** A bare connection as repositories ask it. */
export function queryingOf(client: ClientBase): Querying {
  return {
    query: async <Row extends QueryResultRow>(sql: string, parameters: readonly unknown[] = []) =>
      (await client.query<Row>(sql, [...parameters])).rows,
  };
}
