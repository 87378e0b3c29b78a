import { uuidv7 } from 'uuidv7';
import type { ClanDatabase } from '#api/database/clan-transaction.js';
import { as, changedBy, PUBLISH, REFUSED, SHARE, WITHDRAW } from '../support/as-clan.js';
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
      await as(database, clan, PUBLISH, ['event', of.event]);
      const counts = await seen(db, clan);
      // Also the scope, by whose revision a reader notices changes. Own calls, menu, reports and aliases stay private.
      expect(Object.keys(counts).sort()).toEqual([...TOLD, 'scope'].sort());
      expect(counts).toMatchObject({ play: 1, game: 1, player: 2, entrant: 2 });
      await as(database, clan, WITHDRAW, ['event', of.event]);
      expect(await seen(db, clan)).toEqual({});
      await as(database, clan, PUBLISH, ['event', of.event]);
      expect(await seen(db, clan)).toEqual(counts);
    });
    expect(await as(database, clan, 'select count(*)::int as plays from play')).toEqual([{ plays: 2 }]);
  });

  it('leaves a reader in the middle of a snapshot with what it began with', async () => {
    const { clan, ids: of } = await anArchive();
    const reader = await aClan(database.owner);
    await database.transactions.run(reader.credential, 'read', async (db) => {
      expect(await seen(db, clan)).toEqual({});
      await as(database, clan, PUBLISH, ['event', of.event]);
      expect(await seen(db, clan)).toEqual({});
    });
  });

  it('lets others read, not write', async () => {
    const { clan, ids: of } = await anArchive();
    await as(database, clan, PUBLISH, ['event', of.event]);
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
    await expect(as(database, ours, WITHDRAW, ['event', of.event])).rejects.toMatchObject({
      code: REFUSED.notOwn,
    });
    await expect(as(database, ours, PUBLISH, ['game', of.game])).rejects.toMatchObject({
      code: REFUSED.notOwn,
    });
  });

  it('takes along what joins the event later, with players that were private', async () => {
    const { clan, ids: of } = await anArchive();
    await as(database, clan, PUBLISH, ['event', of.event]);
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
    await as(database, clan, PUBLISH, ['event', of.event]);
    await as(database, clan, PUBLISH, ['event', second]);
    await as(database, clan, WITHDRAW, ['event', of.event]);
    expect(await handles()).toEqual([{ handle: 'HeronGate' }]);
    await as(database, clan, WITHDRAW, ['event', second]);
    expect(await handles()).toEqual([]);
  });

  it('to named clans reaches those alone, with the game, its chart and its players', async () => {
    const clan = await aClan(database.owner);
    const [inside, outside] = [await aClan(database.owner), await aClan(database.owner)];
    const game = await aGame(database.owner, clan);
    await aPlay(database.owner, clan, { chart: await aChart(database.owner, clan, { game }) });
    await as(database, clan, SHARE, ['game', game.id, inside.id]);
    const seenBy = (reader: TestClan) => as(database, reader, SEEN, [clan.id]);
    expect(await seenBy(inside)).toEqual([{ plays: 1, games: 1, players: 2 }]);
    expect(await seenBy(outside)).toEqual([{ plays: 0, games: 0, players: 0 }]);
    const readers = await as(database, outside, 'select from scope_reader where clan_id = $1', [inside.id]);
    expect(readers).toEqual([]);
    await as(database, clan, WITHDRAW, ['game', game.id]);
    expect(await seenBy(inside)).toEqual([{ plays: 0, games: 0, players: 0 }]);
  });

  it('shows a player to every clan that reads a game of the player, and to no other', async () => {
    const clan = await aClan(database.owner);
    const [one, two, none] = [await aClan(database.owner), await aClan(database.owner), await aClan(database.owner)];
    const shared = await aPlayer(database.owner, clan);
    const first = await aGame(database.owner, clan, { homePlayerId: shared });
    const second = await aGame(database.owner, clan, { homePlayerId: shared });
    const sees = async (reader: TestClan) =>
      (await as(database, reader, 'select id from player where id = $1', [shared])).length;
    const seen = async () => [await sees(one), await sees(two), await sees(none)];
    await as(database, clan, SHARE, ['game', first.id, one.id]);
    expect(await seen()).toEqual([1, 0, 0]);
    await as(database, clan, SHARE, ['game', second.id, two.id]);
    expect(await seen()).toEqual([1, 1, 0]);
    await as(database, clan, WITHDRAW, ['game', first.id]);
    expect(await seen()).toEqual([0, 1, 0]);
    await as(database, clan, SHARE, ['player', shared, none.id]);
    expect(await seen()).toEqual([0, 1, 1]);
    await as(database, clan, PUBLISH, ['game', first.id]);
    expect(await seen()).toEqual([1, 1, 1]);
    await as(database, clan, 'delete from game where id = $1', [first.id]);
    expect(await seen()).toEqual([0, 1, 1]);
    await as(database, clan, WITHDRAW, ['player', shared]);
    await as(database, clan, WITHDRAW, ['game', second.id]);
    expect(await seen()).toEqual([0, 0, 0]);
    const scopes = await as(database, clan, 'select distinct scope_id from player where clan_id = $1', [clan.id]);
    expect(scopes).toEqual([{ scope_id: clan.privateScopeId }]);
  });

  it('keeps a game back that was taken out of its event, when the event is opened again', async () => {
    const { clan, ids: of } = await anArchive();
    const games = async () => (await as(database, ours, 'select id from game where clan_id = $1', [clan.id])).length;
    await as(database, clan, PUBLISH, ['event', of.event]);
    await as(database, clan, WITHDRAW, ['game', of.game]);
    expect(await games()).toBe(0);
    await as(database, clan, WITHDRAW, ['event', of.event]);
    await as(database, clan, PUBLISH, ['event', of.event]);
    expect(await games()).toBe(0);
    await as(database, clan, 'select app.follow_event($1)', [of.game]);
    expect(await games()).toBe(1);
  });

  it('needs a key that may manage', async () => {
    const clan = await aClan(database.owner, { rights: ['read', 'write'] });
    const event = await anEvent(database.owner, clan);
    for (const [sql, parameters] of [
      [PUBLISH, ['event', event]],
      ['select app.follow_event($1)', [event]],
    ] as const) {
      await expect(as(database, clan, sql, parameters)).rejects.toMatchObject({ code: 'access.right_missing' });
    }
  });

  it('never shows rows of another clan, of one person, or of what has no visibility, and grants nothing by hand', async () => {
    const person = await aScope(database.owner, ours, 'person');
    const personal = await aPlayer(database.owner, ours, { scope_id: person });
    const foreign = await aPlayer(database.owner, theirs);
    const report = `select app.set_visibility('round_report', $1, true, '{}', '{}')`;
    for (const [sql, parameters] of [
      [PUBLISH, ['player', personal]],
      [PUBLISH, ['player', foreign]],
      [PUBLISH, ['player', uuidv7()]],
      [report, [uuidv7()]],
    ] as const) {
      await expect(as(database, ours, sql, parameters)).rejects.toMatchObject({ code: REFUSED.notOwn });
    }
    for (const by_hand of [
      `insert into scope_reader (scope_id) values (${ours.privateScopeId})`,
      `delete from scope_reader`,
      `update scope set root_id = '${personal}'`,
      `insert into scope (clan_id, kind, root_id) values ('${ours.id}', 'share', '${personal}')`,
    ]) {
      await expect(as(database, ours, by_hand)).rejects.toMatchObject({ code: REFUSED.notAllowed });
    }
  });

  it('does not take from others what a third clan shares with them', async () => {
    const reader = await aClan(database.owner);
    const player = await aPlayer(database.owner, theirs);
    await as(database, theirs, SHARE, ['player', player, reader.id]);
    await expect(as(database, ours, WITHDRAW, ['player', player])).rejects.toMatchObject({ code: REFUSED.notOwn });
    expect(await as(database, reader, 'select id from player where id = $1', [player])).toHaveLength(1);
  });
});

const SEEN = `select (select count(*)::int from play where clan_id = $1) as plays,
                     (select count(*)::int from game where clan_id = $1) as games,
                     (select count(*)::int from player where clan_id = $1) as players`;
