import { uuidv7 } from 'uuidv7';
import type { ClanDatabase } from '#api/database/clan-transaction.js';
import { as, changedBy, REFUSED } from '../support/as-clan.js';
import { catalogTables } from '../support/catalog.js';
import { aChart, aClan, aGame, anEvent, aPlay, aPlayer, aScope, insert, type TestClan } from '../support/factories.js';
import { newIds, populate } from '../support/populate.js';
import { createTestDatabase, type TestDatabase } from '../support/test-database.js';

/** Tables whose rows belong to a clan and that requests read. */
let clanTables: string[];
let database: TestDatabase;
let ours: TestClan;
let theirs: TestClan;

beforeAll(async () => {
  database = await createTestDatabase();
  ours = await aClan(database.owner);
  theirs = await aClan(database.owner);
  await aPlayer(database.owner, ours);
  const tables = await catalogTables(database.owner);
  clanTables = tables.filter(({ hasClan, rights }) => hasClan && rights.length > 0).map(({ name }) => name);
});
afterAll(() => database.drop());

describe('publishing', () => {
  /** An event of one game, charted, with everything that could hang on it. */
  async function anArchive() {
    const clan = await aClan(database.owner);
    const of = newIds();
    await populate(database.owner, clan, of);
    // Private, and to stay so.
    await aPlay(database.owner, clan);
    return { clan, ids: of };
  }

  const TOLD = [
    'event',
    'entrant',
    'match',
    'contest',
    'game',
    'game_video',
    'chart',
    'chart_pack',
    'reconciliation',
    'play',
    'player',
  ];

  async function seen(db: ClanDatabase, clan: TestClan): Promise<Record<string, number>> {
    const counts: Record<string, number> = {};
    for (const name of clanTables) {
      const [row] = await db.query<{ n: number }>(`select count(*)::int as n from ${name} where clan_id = $1`, [
        clan.id,
      ]);
      if (row !== undefined && row.n > 0) counts[name] = row.n;
    }
    return counts;
  }

  it('shows an event, its games, plays and players at the next statement, and hides them likewise', async () => {
    const { clan, ids: of } = await anArchive();
    const reader = await aClan(database.owner);
    await database.transactions.run(reader.credential, 'write', async (db) => {
      expect(await seen(db, clan)).toEqual({});
      await as(database, clan, 'select app.publish_event($1)', [of.event]);
      const counts = await seen(db, clan);
      // Also the scope, by whose revision a reader notices changes. Own calls, menu, reports and aliases stay private.
      expect(Object.keys(counts).sort()).toEqual([...TOLD, 'scope'].sort());
      expect(counts).toMatchObject({ play: 1, game: 1, player: 2, entrant: 2 });
      await as(database, clan, 'select app.withdraw_event($1)', [of.event]);
      expect(await seen(db, clan)).toEqual({});
      await as(database, clan, 'select app.publish_event($1)', [of.event]);
      expect(await seen(db, clan)).toEqual(counts);
    });
    expect(await as(database, clan, 'select count(*)::int as plays from play')).toEqual([{ plays: 2 }]);
  });

  it('leaves a reader in the middle of a snapshot with what it began with', async () => {
    const { clan, ids: of } = await anArchive();
    const reader = await aClan(database.owner);
    await database.transactions.run(reader.credential, 'read', async (db) => {
      expect(await seen(db, clan)).toEqual({});
      await as(database, clan, 'select app.publish_event($1)', [of.event]);
      expect(await seen(db, clan)).toEqual({});
    });
  });

  it('lets others read, not write', async () => {
    const { clan, ids: of } = await anArchive();
    await as(database, clan, 'select app.publish_event($1)', [of.event]);
    for (const table of TOLD) {
      expect(
        await changedBy(database, ours, `update ${table} set scope_id = scope_id where clan_id = $1`, [clan.id]),
      ).toBe(0);
      expect(await changedBy(database, ours, `delete from ${table} where clan_id = $1`, [clan.id])).toBe(0);
    }
    const [public_] = await as(database, ours, 'select scope_id from event where clan_id = $1', [clan.id]);
    const intrude = `update player set scope_id = $1 where clan_id = $2`;
    await expect(as(database, ours, intrude, [public_?.['scope_id'], ours.id])).rejects.toMatchObject({
      code: REFUSED.notAllowed,
    });
    await expect(as(database, ours, 'select app.withdraw_event($1)', [of.event])).rejects.toMatchObject({
      code: REFUSED.notOwn,
    });
    await expect(as(database, ours, 'select app.publish_event($1)', [of.game])).rejects.toMatchObject({
      code: REFUSED.notOwn,
    });
  });

  it('takes along what joins the event later, with players that were private', async () => {
    const { clan, ids: of } = await anArchive();
    await as(database, clan, 'select app.publish_event($1)', [of.event]);
    const [event] = await as(database, clan, 'select scope_id from event where id = $1', [of.event]);
    const newcomer = await aPlayer(database.owner, clan);
    const scopeId = Number(event?.['scope_id']);
    await aGame(database.owner, clan, {
      homePlayerId: newcomer,
      awayPlayerId: of.away,
      scopeId,
      row: { event_id: of.event },
    });
    expect(await as(database, ours, 'select id from player where id = $1', [newcomer])).toEqual([{ id: newcomer }]);
  });

  it('keeps a player readable as long as one public event needs the record', async () => {
    const { clan, ids: of } = await anArchive();
    const second = await anEvent(database.owner, clan);
    const entrant = {
      clan_id: clan.id,
      scope_id: clan.privateScopeId,
      id: uuidv7(),
      event_id: second,
      player_id: of.home,
    };
    await insert(database.owner, 'entrant', entrant);
    const handles = () => as(database, ours, 'select handle from player where clan_id = $1 order by handle', [clan.id]);
    await as(database, clan, 'select app.publish_event($1)', [of.event]);
    await as(database, clan, 'select app.publish_event($1)', [second]);
    await as(database, clan, 'select app.withdraw_event($1)', [of.event]);
    expect(await handles()).toEqual([{ handle: 'HeronGate' }]);
    await as(database, clan, 'select app.withdraw_event($1)', [second]);
    expect(await handles()).toEqual([]);
  });

  it('to a share group reaches the clans in it alone', async () => {
    const clan = await aClan(database.owner);
    const [inside, outside] = [await aClan(database.owner), await aClan(database.owner)];
    const scope = await aScope(database.owner, clan);
    const chart = await aChart(database.owner, clan, { game: await aGame(database.owner, clan, { scopeId: scope }) });
    await aPlay(database.owner, clan, { chart });
    await as(database, clan, 'select app.grant_scope($1, $2)', [scope, inside.id]);
    const plays = (reader: TestClan) =>
      as(database, reader, 'select play_number from play where clan_id = $1', [clan.id]);
    expect(await plays(inside)).toHaveLength(1);
    expect(await plays(outside)).toHaveLength(0);
    expect(await as(database, outside, 'select * from scope_reader where scope_id = $1', [scope])).toEqual([]);
    await as(database, clan, 'select app.revoke_scope($1, $2)', [scope, inside.id]);
    expect(await plays(inside)).toHaveLength(0);
  });

  it('needs a key that may manage', async () => {
    const clan = await aClan(database.owner, { rights: ['read', 'write'] });
    for (const call of ['publish_event($1)', 'withdraw_event($1)', 'grant_scope(1, $1)', 'revoke_scope(1, $1)']) {
      const attempt = as(database, clan, `select app.${call}`, [clan.id]);
      await expect(attempt).rejects.toMatchObject({ code: 'access.right_missing' });
    }
  });

  it('never grants private, personal or foreign scopes', async () => {
    const person = await aScope(database.owner, ours, 'person');
    const foreign = await aScope(database.owner, theirs);
    for (const scope of [ours.privateScopeId, person, foreign, theirs.privateScopeId, 2_000_000_000]) {
      await expect(as(database, ours, 'select app.grant_scope($1, null)', [scope])).rejects.toMatchObject({
        code: REFUSED.notOwn,
      });
    }
    const grant = `insert into scope_reader (scope_id) values ($1)`;
    await expect(as(database, ours, grant, [ours.privateScopeId])).rejects.toMatchObject({ code: REFUSED.notAllowed });
  });

  it('does not take a scope away from others', async () => {
    const reader = await aClan(database.owner);
    const scope = await aScope(database.owner, theirs);
    await as(database, theirs, 'select app.grant_scope($1, $2)', [scope, reader.id]);
    await as(database, ours, 'select app.revoke_scope($1, $2)', [scope, reader.id]);
    expect(await as(database, reader, 'select id from scope where id = $1', [scope])).toHaveLength(1);
  });
});
