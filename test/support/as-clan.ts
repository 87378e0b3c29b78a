import type { TestClan } from './factories.js';
import type { TestDatabase } from './test-database.js';

/** SQL that opens the root of that kind and id to every clan, and to nobody. */
export const PUBLISH = `select app.set_visibility($1, $2, true, '{}', '{}')`;
export const WITHDRAW = `select app.set_visibility($1, $2, false, '{}', '{}')`;
/** SQL that shares it with one clan, the third parameter. */
export const SHARE = `select app.set_visibility($1, $2, false, array[$3::uuid], '{}')`;

/** Runs SQL as a request of the clan would, in a transaction of its own. */
export function as(
  database: TestDatabase,
  clan: TestClan,
  sql: string,
  parameters: readonly unknown[] = [],
): Promise<Record<string, unknown>[]> {
  return database.transactions.run(clan.credential, 'write', (db) => db.query(sql, parameters));
}

/** How many rows a statement changed. */
export function changedBy(
  database: TestDatabase,
  clan: TestClan,
  sql: string,
  parameters: unknown[] = [],
): Promise<number | null> {
  return database.transactions.run(
    clan.credential,
    'write',
    async (db) => (await db.client.query(sql, parameters)).rowCount,
  );
}

/** The SQLSTATE of a refusal, to compare what two refusals say. */
export function refusal(error: unknown): unknown {
  return error instanceof Error && 'code' in error ? error.code : error;
}

/** SQLSTATEs that tests expect. */
export const REFUSED = {
  notAllowed: '42501',
  notEntered: 'RB001',
  forged: 'RB003',
  notOwn: 'RB004',
  noSuchRow: '23503',
  checkFailed: '23514',
} as const;
