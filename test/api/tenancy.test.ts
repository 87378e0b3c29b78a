import { aClan, aPlay, aPlayer } from '../support/factories.js';
import { createTestDatabase, type TestDatabase } from '../support/test-database.js';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

it('smoke', async () => {
  const clan = await aClan(database.owner);
  const other = await aClan(database.owner);
  await aPlayer(database.owner, clan);
  await aPlay(database.owner, clan);
  const rows = await database.transactions.run(clan.credential, 'read', (db) => db.query('select * from play'));
  expect(rows).toHaveLength(1);
  expect(
    await database.transactions.run(other.credential, 'read', (db) => db.query('select * from play')),
  ).toHaveLength(0);
  for (let i = 0; i < 3; i++) {
    const t = process.hrtime.bigint();
    const N = 500;
    for (let k = 0; k < N; k++) await database.transactions.run(clan.credential, 'read', (db) => db.query('select 1'));
    const e = process.hrtime.bigint();
    for (let k = 0; k < N; k++) await database.service.query('select 1');
    const f = process.hrtime.bigint();
    console.log(Number(e - t) / N / 1e6, Number(f - e) / N / 1e6);
  }
});
