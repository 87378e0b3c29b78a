import { PassThrough } from 'node:stream';
import { aClan, type TestClan } from '../support/factories.js';
import { createTestDatabase, type TestDatabase } from '../support/test-database.js';

let database: TestDatabase;
let clan: TestClan;

beforeAll(async () => {
  database = await createTestDatabase();
  clan = await aClan(database.owner);
});
afterAll(() => database.drop());

const LONGER_THAN_ANY_TEST = 'select pg_sleep(600)';

describe('a client that leaves', () => {
  it('has its query cancelled, and the connection serves the next', async () => {
    const asker = new PassThrough();
    const credential = { ...clan.credential, asker };
    const running = database.transactions.run(credential, 'read', (db) => {
      const query = db.query(LONGER_THAN_ANY_TEST);
      asker.destroy();
      return query;
    });
    await expect(running).rejects.toMatchObject({ code: '57014' });
    const [row] = await database.transactions.run(clan.credential, 'read', (db) => db.query('select 1 as one'));
    expect(row).toEqual({ one: 1 });
  });

  it('that has its answer leaves nothing behind', async () => {
    const asker = new PassThrough();
    const credential = { ...clan.credential, asker };
    await database.transactions.run(credential, 'read', (db) => db.query('select 1 as one'));
    asker.destroy();
    const rows = await database.transactions.run(clan.credential, 'read', (db) => db.query('select 2 as two'));
    expect(rows).toEqual([{ two: 2 }]);
  });
});
