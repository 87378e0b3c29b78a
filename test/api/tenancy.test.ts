import { Client, Pool, type PoolClient } from 'pg';
import { uuidv7 } from 'uuidv7';
import { ClanTransactions, type ClanDatabase } from '#api/database/clan-transaction.js';
import { createServicePool } from '#api/database/service-pool.js';
import {
  aChart,
  aClan,
  aGame,
  aKey,
  anEvent,
  aPlay,
  aPlayer,
  aScope,
  insert,
  type TestClan,
} from '../support/factories.js';
import { catalogReferences, catalogTables, type CatalogTable } from '../support/catalog.js';
import { newIds, populate, type Ids } from '../support/populate.js';
import { createTestDatabase, type TestDatabase } from '../support/test-database.js';

const NOT_ALLOWED = '42501';
const NOT_ENTERED = 'RB001';
const FORGED = 'RB003';
const NOT_OWN = 'RB004';
const NO_SUCH_ROW = '23503';
const CHECK_FAILED = '23514';

/** Tables that say nothing of a clan and that the service has no right to. */
const OF_THE_OWNER = ['schema_migration', 'seal_key'];

let database: TestDatabase;
/** Two clans with the very same rows in every table, down to the ids. */
let ours: TestClan;
let theirs: TestClan;
let ids: Ids;
let ourTerm: number;
let theirTerm: number;
let tables: CatalogTable[];

beforeAll(async () => {
  database = await createTestDatabase();
  ids = newIds();
  ours = await aClan(database.owner);
  theirs = await aClan(database.owner);
  theirTerm = await populate(database.owner, theirs, ids);
  ourTerm = await populate(database.owner, ours, ids);
  tables = (await catalogTables(database.owner)).filter(({ name }) => !OF_THE_OWNER.includes(name));
});
afterAll(() => database.drop());

/** Runs SQL as a request of the clan would, in a transaction of its own. */
function as(clan: TestClan, sql: string, parameters: readonly unknown[] = []): Promise<Record<string, unknown>[]> {
  return database.transactions.run(clan.credential, 'write', (db) => db.query(sql, parameters));
}

/** How many rows a statement changed. */
function changedBy(clan: TestClan, sql: string, parameters: unknown[] = []): Promise<number | null> {
  return database.transactions.run(
    clan.credential,
    'write',
    async (db) => (await db.client.query(sql, parameters)).rowCount,
  );
}

/** Those of the tables that hold rows by clan, which is all but the clans themselves and who reads a scope. */
function clanTables(): CatalogTable[] {
  return tables.filter(({ hasClan, name }) => hasClan && name !== 'scope_reader');
}

async function eachTable(
  chosen: readonly CatalogTable[],
  check: (table: CatalogTable) => Promise<void>,
): Promise<void> {
  const failures: string[] = [];
  for (const table of chosen) {
    await check(table).catch((error: unknown) => failures.push(`${table.name}: ${String(error)}`));
  }
  expect(failures).toEqual([]);
}

describe('every table in the catalog', () => {
  it('is one of those that this test knows rows for', async () => {
    await eachTable(tables, async ({ name, hasClan }) => {
      const of = hasClan ? 'clan_id' : 'id';
      const { rowCount } = await database.owner.query(`select from ${name} where ${of} = $1 limit 1`, [theirs.id]);
      if (rowCount !== 1) throw new Error('populate.ts has no row for it');
    });
  });

  it('forces row-level security and has a policy for each right of the service, and none without', () => {
    for (const { name, secured, forced, rights, policies } of tables) {
      expect({ name, secured, forced, policies }).toEqual({
        ...{ name, secured: true, forced: true },
        policies: [...rights].sort(),
      });
      expect(rights).toContain('select');
    }
  });

  it("gives the service no right to what is the owner's", async () => {
    const all = await catalogTables(database.owner);
    const found = all.filter(({ name }) => OF_THE_OWNER.includes(name));
    expect(found.map(({ name, rights }) => ({ name, rights }))).toEqual(
      OF_THE_OWNER.map((name) => ({ name, rights: [] })),
    );
  });

  it('shows another clan none of its rows, nor how many there are', async () => {
    await eachTable(clanTables(), async ({ name }) => {
      const [seen] = await as(
        ours,
        `select count(*)::int as all, count(*) filter (where clan_id = $1)::int as theirs,
                count(*) filter (where clan_id = $2)::int as ours, count(*) filter (where clan_id is null)::int as shared
           from ${name}`,
        [theirs.id, ours.id],
      );
      expect(seen?.['theirs']).toBe(0);
      expect(seen?.['ours']).toBeGreaterThan(0);
      expect(Number(seen?.['ours']) + Number(seen?.['shared'])).toBe(seen?.['all']);
      if (!name.startsWith('term')) expect(seen?.['shared']).toBe(0);
    });
    expect(await as(ours, 'select id from clan')).toEqual([{ id: ours.id }]);
    expect(await as(ours, 'select distinct clan_id from scope_reader')).toEqual([{ clan_id: ours.id }]);
  });

  it('lets nobody change or delete rows of another clan', async () => {
    await eachTable(clanTables(), async ({ name, rights, insertable }) => {
      const update = `update ${name} set ${insertable.at(-1) ?? 'clan_id'} = default where clan_id = $1`;
      const remove = `delete from ${name} where clan_id = $1`;
      for (const [right, sql] of [
        ['update', update],
        ['delete', remove],
      ] as const) {
        const attempt = changedBy(ours, sql, [theirs.id]);
        // A right on some columns only may not cover the one that was tried.
        if (rights.includes(right)) expect([0, NOT_ALLOWED]).toContain(await attempt.catch(refusal));
        else await expect(attempt).rejects.toMatchObject({ code: NOT_ALLOWED });
      }
    });
  });

  it('takes in no row in the name of another clan, and says the same whether there is such a row or not', async () => {
    await eachTable(
      clanTables().filter(({ rights }) => rights.includes('insert')),
      async ({ name, insertable }) => {
        const columns = insertable.join(', ');
        const { rows } = await database.owner.query<{ row: string }>(
          `select to_jsonb(t)::text as row from ${name} t where clan_id = $1 limit 1`,
          [theirs.id],
        );
        const copy = `insert into ${name} (${columns}) select ${columns} from jsonb_populate_record(null::${name}, $1)`;
        // All unique values are there already, and still that is not what stands in the way.
        await expect(as(ours, copy, [rows[0]?.row])).rejects.toMatchObject({ code: NOT_ALLOWED });
      },
    );
  });

  it('hands no row over to another clan, nor takes one', async () => {
    await eachTable(
      clanTables().filter(({ rights, name }) => rights.includes('update') && name !== 'api_key'),
      async ({ name, hasScope }) => {
        const moved = await changedBy(ours, `update ${name} set clan_id = $1 where clan_id = $2`, [
          theirs.id,
          ours.id,
        ]).catch(refusal);
        expect(moved).toBe(name === 'term' ? CHECK_FAILED : NOT_ALLOWED);
        if (!hasScope) return;
        const rescoped = changedBy(ours, `update ${name} set scope_id = $1`, [theirs.privateScopeId]);
        await expect(rescoped).rejects.toMatchObject({ code: NOT_ALLOWED });
      },
    );
  });

  it('raises when no clan was entered, instead of looking empty', async () => {
    await eachTable(tables, async ({ name, readable }) => {
      const read = database.service.query(`select ${readable.join(', ')} from ${name}`);
      await expect(read).rejects.toMatchObject({ code: NOT_ENTERED });
    });
  });

  it('can be back-filled by its owner', async () => {
    await eachTable(clanTables(), async ({ name }) => {
      const { rows } = await database.owner.query<{ count: number }>(`select count(*)::int from ${name}`);
      const { rowCount } = await database.owner.query(`update ${name} set clan_id = clan_id`);
      expect(rowCount).toBe(rows[0]?.count);
    });
  });
});

describe('a reference', () => {
  it('to a row of another clan is refused in the words for a row that does not exist', async () => {
    // Rows whose ids only the other clan has.
    const foreign = newIds();
    const stranger = await aClan(database.owner);
    await populate(database.owner, stranger, foreign);
    const { rows: keys } = await database.owner.query<{ id: string }>('select id from api_key where clan_id = $1', [
      stranger.id,
    ]);
    const idOf: Record<string, string | undefined> = {
      player: foreign.home,
      event: foreign.event,
      entrant: foreign.homeEntrant,
      match: foreign.match,
      contest: foreign.contest,
      game: foreign.game,
      chart: foreign.chart,
      menu_call: foreign.menuCall,
      api_key: keys[0]?.id,
    };
    const writable = new Map(tables.map(({ name, rights }) => [name, rights.includes('update')]));
    const references = await catalogReferences(database.owner);
    expect(references.length).toBeGreaterThan(15);
    for (const { table, column, target } of references) {
      if (writable.get(table) !== true) continue;
      const point = (id: string | undefined) =>
        changedBy(ours, `update ${table} set ${column} = $1`, [id]).then(
          () => 'accepted',
          (error: unknown) =>
            error instanceof Error && 'code' in error ? `${String(error.code)} ${error.message}` : 'other',
        );
      const toTheirs = await point(idOf[target]);
      expect(`${table}.${column}: ${toTheirs}`).toMatch(/: (23503|23505|23514) /);
      expect(toTheirs).toBe(await point(uuidv7()));
    }
  });

  it('from a term or a word to a term of another clan is refused likewise', async () => {
    const refer = (id: number) =>
      as(ours, `update term set parent_id = $1 where id = $2`, [id, ourTerm]).then(
        () => 'accepted',
        (error: unknown) => String(error),
      );
    expect(await refer(theirTerm)).toBe(await refer(2_000_000_000));
    expect(await refer(theirTerm)).toContain('no term of this clan');
    const word = `insert into term_synonym (clan_id, term_id, kind, normalised) select $1, $2, kind, 'x' from term where id = 1`;
    await expect(as(ours, word, [ours.id, theirTerm])).rejects.toMatchObject({ code: NO_SUCH_ROW });
  });
});

describe('the vocabulary', () => {
  it("is the starter terms and the clan's own; nobody but the owner changes a starter term", async () => {
    const seen = await as(ours, 'select id from term where clan_id is not null');
    expect(seen).toEqual([{ id: ourTerm }]);
    expect(await changedBy(ours, `update term set name = 'Mine' where code is not null`)).toBe(0);
    const add = `insert into term (kind, code, name, normalised_name) values ('front', 'front.mine', 'Mine', 'mine')`;
    await expect(as(ours, add)).rejects.toMatchObject({ code: NOT_ALLOWED });
  });

  it('keeps kind, code and clan of a term, and lets it stand for a starter term of its kind only', async () => {
    await expect(as(ours, `update term set kind = 'front' where id = $1`, [ourTerm])).rejects.toMatchObject({
      code: CHECK_FAILED,
    });
    const stand = `update term set starter_id = (select min(s.id) from term s where s.kind <> term.kind) where id = $1`;
    await expect(as(ours, stand, [ourTerm])).rejects.toMatchObject({ code: CHECK_FAILED });
  });

  it("says of another clan's term only what it stands for, and only where that clan shows something", async () => {
    const stranger = await aClan(database.owner);
    const term = await populate(database.owner, stranger, newIds());
    const reader = await aClan(database.owner);
    const asked = () => as(reader, 'select * from app.foreign_terms($1)', [[term, 1, theirTerm]]);
    expect(await asked()).toEqual([]);
    const scope = await aScope(database.owner, stranger);
    await as(stranger, 'select app.grant_scope($1, $2)', [scope, reader.id]);
    expect(await asked()).toEqual([{ term_id: term, starter_id: 1 }]);
  });
});

describe('entering a clan', () => {
  it('refuses a key that is unknown, revoked or expired', async () => {
    const clan = await aClan(database.owner);
    const past = '2020-01-01T00:00:00Z';
    const revoked = await aKey(database.owner, clan.id, { revoked_at: past });
    const expired = await aKey(database.owner, clan.id, { expires_at: past });
    const unknown = { credential: { keyHash: Buffer.alloc(32, 1) } };
    const malformed = { credential: { keyHash: Buffer.alloc(3) } };
    for (const { credential } of [revoked, expired, unknown, malformed]) {
      const attempt = database.transactions.run(credential, 'read', () => Promise.resolve('in'));
      await expect(attempt).rejects.toMatchObject({ code: 'access.key_refused' });
    }
    const valid = await aKey(database.owner, clan.id, { expires_at: '2999-01-01T00:00:00Z' });
    await expect(database.transactions.run(valid.credential, 'read', () => Promise.resolve('in'))).resolves.toBe('in');
  });

  it('tells clan, key and rights', async () => {
    const clan = await aClan(database.owner, { rights: ['read'] });
    const told = await database.transactions.run(clan.credential, 'read', ({ clanId, keyId, rights }) =>
      Promise.resolve({ clanId, keyId, rights }),
    );
    expect(told).toEqual({ clanId: clan.id, keyId: clan.keyId, rights: ['read'] });
  });

  it('cannot be forged', async () => {
    const forgeries = ['nonsense', `${theirs.id} ${theirs.keyId} ${'0'.repeat(64)}`, `${theirs.id} ${theirs.keyId} `];
    for (const forgery of forgeries) {
      await expect(
        transaction(database.service, async (client) => {
          await client.query(`select set_config('roundbook.clan', $1, true)`, [forgery]);
          await client.query('select count(*) from player');
        }),
      ).rejects.toMatchObject({ code: FORGED });
    }
  });

  it('is worth nothing in another transaction of the session', async () => {
    await onOneConnection(async (client) => {
      await client.query('begin');
      const { rows } = await client.query<{ value: string }>(
        `select current_setting('roundbook.clan') as value from app.enter($1)`,
        [ours.credential.keyHash],
      );
      await client.query(`select set_config('roundbook.clan', current_setting('roundbook.clan'), false)`);
      await client.query('select count(*) from player');
      await client.query('commit');
      // Kept beyond the transaction by the SQL of an intruder, and of no use.
      await expect(client.query('select count(*) from player')).rejects.toMatchObject({ code: FORGED });
      await client.query('begin');
      await client.query(`select set_config('roundbook.clan', $1, true)`, [rows[0]?.value]);
      await expect(client.query('select count(*) from player')).rejects.toMatchObject({ code: FORGED });
      await client.query('rollback');
    });
  });

  it('is worth nothing in another session', async () => {
    await database.transactions.run(ours.credential, 'write', async (db) => {
      const [entered] = await db.query<{ value: string }>(`select current_setting('roundbook.clan') as value`);
      await expect(
        transaction(database.service, async (other) => {
          await other.query(`select set_config('roundbook.clan', $1, true)`, [entered?.value]);
          await other.query('select count(*) from player');
        }),
      ).rejects.toMatchObject({ code: FORGED });
    });
  });

  it('ends with the seal key it was sealed with', async () => {
    await database.transactions
      .run(ours.credential, 'write', async (db) => {
        await database.owner.query('select app.renew_seal_key()');
        await expect(db.query('select app.clan()')).rejects.toMatchObject({ code: FORGED });
        await db.client.query('rollback');
      })
      .catch(() => undefined);
    expect(await as(ours, 'select app.clan() as clan')).toEqual([{ clan: ours.id }]);
  });

  it('gives the service no way to the seal, to digests of keys, or to another role', async () => {
    for (const sql of [
      'select app.seal(null, null)',
      'select * from app.seal_key',
      'select app.renew_seal_key()',
      'select app.entered()',
      `select app.create_clan(gen_random_uuid(), 'mine')`,
      'select key_hash from api_key',
      `update api_key set rights = array['manage']`,
      'set role roundbook_owner',
      'create table mine ()',
      'create function app.mine() returns int language sql return 1',
      'alter table player disable row level security',
    ]) {
      await expect(as(ours, sql)).rejects.toMatchObject({ code: NOT_ALLOWED });
    }
  });

  it('lets the service execute these functions and no others', async () => {
    const { rows } = await database.owner.query<{ name: string }>(
      `select p.proname as name from pg_proc p join pg_namespace n on n.oid = p.pronamespace
        where n.nspname in ('app', 'public') and has_function_privilege('roundbook_service', p.oid, 'execute') order by 1`,
    );
    expect(rows.map(({ name }) => name)).toEqual([
      ...['archive_revision', 'clan', 'enter', 'foreign_terms', 'grant_scope', 'is_public', 'key_id', 'own_scopes'],
      ...['publish_event', 'raise_scope_revision', 'revoke_scope', 'scopes', 'withdraw_event'],
    ]);
  });

  it('fixes the search path of every function', async () => {
    const { rows } = await database.owner.query<{ name: string }>(
      `select p.proname as name from pg_proc p join pg_namespace n on n.oid = p.pronamespace
        where n.nspname = 'app' and not coalesce('search_path=pg_catalog, pg_temp' = any (p.proconfig), false)`,
    );
    expect(rows).toEqual([]);
  });
});

describe('a connection that went back to the pool', () => {
  const settings = { poolSize: 1, statementTimeoutMs: 30_000, idleInTransactionTimeoutMs: 30_000 };
  let pool: Pool;
  let transactions: ClanTransactions;
  beforeEach(() => {
    pool = createServicePool(database.serviceUrl, settings);
    transactions = new ClanTransactions(pool);
  });
  afterEach(() => pool.end());

  async function expectClean(): Promise<void> {
    await expect(pool.query('select app.clan()')).rejects.toMatchObject({ code: NOT_ENTERED });
    const { rows } = await pool.query<{ value: string | null }>(
      `select current_setting('roundbook.clan', true) as value`,
    );
    expect(rows[0]?.value ?? '').toBe('');
  }

  it.each(['read', 'write'] as const)('carries no clan after a %s', async (mode) => {
    await transactions.run(ours.credential, mode, (db) => db.query('select app.clan()'));
    await expectClean();
  });

  it('carries no clan after a failure of the work or of a statement', async () => {
    await expect(transactions.run(ours.credential, 'write', () => Promise.reject(new Error('no')))).rejects.toThrow(
      'no',
    );
    await expectClean();
    await expect(transactions.run(ours.credential, 'read', (db) => db.query('select 1 / 0'))).rejects.toMatchObject({
      code: '22012',
    });
    await expectClean();
  });

  it('carries no clan after a refused key', async () => {
    await expect(transactions.run({ keyHash: Buffer.alloc(32) }, 'write', () => Promise.resolve())).rejects.toThrow();
    await expectClean();
  });

  it('is thrown away when it broke, and the next request gets a new one', async () => {
    const broken = transactions.run(ours.credential, 'write', async (db) => {
      const [session] = await db.query<{ pid: number }>('select pg_backend_pid() as pid');
      await endSession(session?.pid ?? 0);
      await db.query('select 1');
    });
    await expect(broken).rejects.toThrow();
    await expect(transactions.run(ours.credential, 'read', (db) => db.query('select 1 as one'))).resolves.toEqual([
      { one: 1 },
    ]);
    expect(pool.totalCount).toBe(1);
  });

  it('was rolled back when a statement failed and the work went on as if nothing were', async () => {
    const swallowed = transactions.run(ours.credential, 'write', async (db) => {
      await db.query(`update clan set name = 'Renamed'`);
      await db.query('select 1 / 0').catch(() => undefined);
    });
    await expect(swallowed).rejects.toThrow('rolled back');
    expect(await as(ours, 'select name from clan')).toEqual([{ name: ours.name }]);
  });

  it('does not write in a transaction for reading', async () => {
    const write = transactions.run(ours.credential, 'read', (db) => db.query(`update clan set name = 'Renamed'`));
    await expect(write).rejects.toMatchObject({ code: '25006' });
  });

  it("copies rows past row-level security's refusal through a temporary table", async () => {
    const clan = await aClan(database.owner);
    const chart = await aChart(database.owner, clan);
    const columns =
      'clan_id, chart_id, play_number, order_in_game, scope_id, game_id, offense_player_id, defense_player_id, play_type';
    const { game } = chart;
    const line = [clan.id, chart.id, 1, 1, game.scopeId, game.id, game.homePlayerId, game.awayPlayerId, 'punt'].join(
      '\t',
    );
    await transactions.run(clan.credential, 'write', async (db) => {
      await db.query(`create temporary table load on commit drop as select ${columns} from play with no data`);
      await copyInto(db, `copy load (${columns}) from stdin`, `${line}\n`);
      await db.query(`insert into play (${columns}) select ${columns} from load`);
    });
    expect(await as(clan, 'select play_type from play')).toEqual([{ play_type: 'punt' }]);
  });
});

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

  const TOLD = ['event', 'entrant', 'match', 'contest', 'game', 'game_video', 'chart', 'chart_pack', 'play', 'player'];

  async function seen(db: ClanDatabase, clan: TestClan): Promise<Record<string, number>> {
    const counts: Record<string, number> = {};
    for (const { name } of clanTables()) {
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
      await as(clan, 'select app.publish_event($1)', [of.event]);
      const counts = await seen(db, clan);
      // Also the scope, by whose revision a reader notices changes. Own calls, menu, reports and aliases stay private.
      expect(Object.keys(counts).sort()).toEqual([...TOLD, 'scope'].sort());
      expect(counts).toMatchObject({ play: 1, game: 1, player: 2, entrant: 2 });
      await as(clan, 'select app.withdraw_event($1)', [of.event]);
      expect(await seen(db, clan)).toEqual({});
      await as(clan, 'select app.publish_event($1)', [of.event]);
      expect(await seen(db, clan)).toEqual(counts);
    });
    expect(await as(clan, 'select count(*)::int as plays from play')).toEqual([{ plays: 2 }]);
  });

  it('leaves a reader in the middle of a snapshot with what it began with', async () => {
    const { clan, ids: of } = await anArchive();
    const reader = await aClan(database.owner);
    await database.transactions.run(reader.credential, 'read', async (db) => {
      expect(await seen(db, clan)).toEqual({});
      await as(clan, 'select app.publish_event($1)', [of.event]);
      expect(await seen(db, clan)).toEqual({});
    });
  });

  it('lets others read, not write', async () => {
    const { clan, ids: of } = await anArchive();
    await as(clan, 'select app.publish_event($1)', [of.event]);
    await eachTable(
      tables.filter(({ name, rights }) => TOLD.includes(name) && rights.includes('update')),
      async ({ name }) => {
        expect(await changedBy(ours, `update ${name} set scope_id = scope_id where clan_id = $1`, [clan.id])).toBe(0);
        expect(await changedBy(ours, `delete from ${name} where clan_id = $1`, [clan.id])).toBe(0);
      },
    );
    const [public_] = await as(ours, 'select scope_id from event where clan_id = $1', [clan.id]);
    const intrude = `update player set scope_id = $1 where clan_id = $2`;
    await expect(as(ours, intrude, [public_?.['scope_id'], ours.id])).rejects.toMatchObject({ code: NOT_ALLOWED });
    await expect(as(ours, 'select app.withdraw_event($1)', [of.event])).rejects.toMatchObject({ code: NOT_OWN });
    await expect(as(ours, 'select app.publish_event($1)', [of.game])).rejects.toMatchObject({ code: NOT_OWN });
  });

  it('takes along what joins the event later, with players that were private', async () => {
    const { clan, ids: of } = await anArchive();
    await as(clan, 'select app.publish_event($1)', [of.event]);
    const [event] = await as(clan, 'select scope_id from event where id = $1', [of.event]);
    const newcomer = await aPlayer(database.owner, clan);
    const scopeId = Number(event?.['scope_id']);
    await aGame(database.owner, clan, {
      homePlayerId: newcomer,
      awayPlayerId: of.away,
      scopeId,
      row: { event_id: of.event },
    });
    expect(await as(ours, 'select id from player where id = $1', [newcomer])).toEqual([{ id: newcomer }]);
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
    const handles = () => as(ours, 'select handle from player where clan_id = $1 order by handle', [clan.id]);
    await as(clan, 'select app.publish_event($1)', [of.event]);
    await as(clan, 'select app.publish_event($1)', [second]);
    await as(clan, 'select app.withdraw_event($1)', [of.event]);
    expect(await handles()).toEqual([{ handle: 'HeronGate' }]);
    await as(clan, 'select app.withdraw_event($1)', [second]);
    expect(await handles()).toEqual([]);
  });

  it('to a share group reaches the clans in it alone', async () => {
    const clan = await aClan(database.owner);
    const [inside, outside] = [await aClan(database.owner), await aClan(database.owner)];
    const scope = await aScope(database.owner, clan);
    const chart = await aChart(database.owner, clan, { game: await aGame(database.owner, clan, { scopeId: scope }) });
    await aPlay(database.owner, clan, { chart });
    await as(clan, 'select app.grant_scope($1, $2)', [scope, inside.id]);
    const plays = (reader: TestClan) => as(reader, 'select play_number from play where clan_id = $1', [clan.id]);
    expect(await plays(inside)).toHaveLength(1);
    expect(await plays(outside)).toHaveLength(0);
    expect(await as(outside, 'select * from scope_reader where scope_id = $1', [scope])).toEqual([]);
    await as(clan, 'select app.revoke_scope($1, $2)', [scope, inside.id]);
    expect(await plays(inside)).toHaveLength(0);
  });

  it('never grants private, personal or foreign scopes', async () => {
    const person = await aScope(database.owner, ours, 'person');
    const foreign = await aScope(database.owner, theirs);
    for (const scope of [ours.privateScopeId, person, foreign, theirs.privateScopeId, 2_000_000_000]) {
      await expect(as(ours, 'select app.grant_scope($1, null)', [scope])).rejects.toMatchObject({ code: NOT_OWN });
    }
    const grant = `insert into scope_reader (scope_id) values ($1)`;
    await expect(as(ours, grant, [ours.privateScopeId])).rejects.toMatchObject({ code: NOT_ALLOWED });
  });

  it('does not take a scope away from others', async () => {
    const reader = await aClan(database.owner);
    const scope = await aScope(database.owner, theirs);
    await as(theirs, 'select app.grant_scope($1, $2)', [scope, reader.id]);
    await as(ours, 'select app.revoke_scope($1, $2)', [scope, reader.id]);
    expect(await as(reader, 'select id from scope where id = $1', [scope])).toHaveLength(1);
  });
});

describe('inside a clan', () => {
  it("shows a person's scope to the holder of that person's key only", async () => {
    const clan = await aClan(database.owner);
    const scope = await aScope(database.owner, clan, 'person');
    const holder = { ...clan, ...(await aKey(database.owner, clan.id, { person_scope_id: scope })) };
    const player = await aPlayer(database.owner, clan, { scope_id: scope });
    expect(await as(holder, 'select id from player where clan_id = $1', [clan.id])).toEqual([{ id: player }]);
    expect(await as(clan, 'select id from player where clan_id = $1', [clan.id])).toEqual([]);
    await expect(as(clan, 'update player set scope_id = $1', [scope])).resolves.toEqual([]);
    await expect(as(holder, 'update player set scope_id = $1', [clan.privateScopeId])).resolves.toEqual([]);
    await expect(as(clan, 'update player set scope_id = $1', [scope])).rejects.toMatchObject({ code: NOT_ALLOWED });
  });

  it("signs the audit with one's own key, and never rewrites it", async () => {
    const other = await aKey(database.owner, ours.id);
    const sign = `insert into audit_entry (clan_id, id, actor_key_id, action, subject_kind) values ($1, $2, $3, 'a', 'b')`;
    await expect(as(ours, sign, [ours.id, uuidv7(), other.keyId])).rejects.toMatchObject({ code: NOT_ALLOWED });
    await expect(as(ours, sign, [ours.id, uuidv7(), ours.keyId])).resolves.toEqual([]);
    for (const sql of [
      `update audit_entry set action = 'c'`,
      'delete from audit_entry',
      `update round_report set seed = 2`,
    ]) {
      await expect(as(ours, sql)).rejects.toMatchObject({ code: NOT_ALLOWED });
    }
  });

  it("raises the revisions of own scopes only, and the archive's with them", async () => {
    const revision = async (clan: TestClan) => (await as(clan, 'select app.archive_revision() as r'))[0]?.['r'];
    const [before, beforeTheirs] = [await revision(ours), await revision(theirs)];
    await as(ours, 'select app.raise_scope_revision($1)', [[ours.privateScopeId, theirs.privateScopeId]]);
    expect(await revision(ours)).not.toBe(before);
    expect(await revision(theirs)).toBe(beforeTheirs);
  });

  it('links players one level deep', async () => {
    const clan = await aClan(database.owner);
    const [one, two, three] = [
      await aPlayer(database.owner, clan),
      await aPlayer(database.owner, clan),
      await aPlayer(database.owner, clan),
    ];
    const link = (from: string, to: string) =>
      as(clan, 'update player set linked_player_id = $2 where id = $1', [from, to]);
    await expect(link(one, one)).rejects.toMatchObject({ code: CHECK_FAILED });
    await link(one, two);
    await expect(link(two, three)).rejects.toMatchObject({ code: CHECK_FAILED });
    await expect(link(two, one)).rejects.toMatchObject({ code: CHECK_FAILED });
    await expect(link(three, one)).rejects.toMatchObject({ code: CHECK_FAILED });
    await link(three, two);
    // Another clan's record, seen or not: nothing is looked up there.
    await link(await aPlayer(database.owner, clan), ids.home);
  });

  it('takes plays of the two players of the game only, and keeps those two', async () => {
    const clan = await aClan(database.owner);
    const chart = await aChart(database.owner, clan);
    const bystander = await aPlayer(database.owner, clan);
    await aPlay(database.owner, clan, { chart });
    const code = { code: NO_SUCH_ROW };
    await expect(aPlay(database.owner, clan, { chart, row: { offense_player_id: bystander } })).rejects.toMatchObject(
      code,
    );
    await expect(as(clan, 'update play set defense_player_id = $1', [bystander])).rejects.toMatchObject(code);
    await expect(as(clan, 'update game set home_player_id = $1', [bystander])).rejects.toMatchObject(code);
    await as(clan, 'update game set home_player_id = away_player_id, away_player_id = home_player_id');
    await expect(as(clan, 'delete from player where id = $1', [chart.game.homePlayerId])).rejects.toMatchObject(code);
  });

  it('deletes a game with its charts, packs and plays, and a clan with everything', async () => {
    const clan = await aClan(database.owner);
    const of = newIds();
    await populate(database.owner, clan, of);
    await as(clan, 'delete from game where id = $1', [of.game]);
    for (const table of ['chart', 'chart_pack', 'play', 'game_video', 'own_call']) {
      expect(await as(clan, `select from ${table} where clan_id = $1`, [clan.id])).toEqual([]);
    }
    await database.owner.query('select app.delete_clan($1)', [clan.id]);
    await eachTable(clanTables(), async ({ name }) => {
      expect((await database.owner.query(`select from ${name} where clan_id = $1`, [clan.id])).rowCount).toBe(0);
    });
  });
});

function refusal(error: unknown): unknown {
  return error instanceof Error && 'code' in error ? error.code : error;
}

async function transaction(pool: Pool, work: (client: PoolClient) => Promise<void>): Promise<void> {
  const client = await pool.connect();
  try {
    await client.query('begin');
    await work(client);
  } finally {
    await client.query('rollback');
    client.release();
  }
}

async function onOneConnection(work: (client: Client) => Promise<void>): Promise<void> {
  const client = new Client({ connectionString: database.serviceUrl });
  await client.connect();
  try {
    await work(client);
  } finally {
    await client.end();
  }
}

/** Ends a session from outside, as a restart of the server would. */
async function endSession(pid: number): Promise<void> {
  const other = new Client({ connectionString: database.serviceUrl });
  await other.connect();
  // A role may end its own sessions.
  await other.query('select pg_terminate_backend($1, 5000)', [pid]);
  await other.end();
}

function copyInto(db: ClanDatabase, sql: string, lines: string): Promise<void> {
  return new Promise((resolve, reject) => {
    db.copyFrom(sql).once('error', reject).once('finish', resolve).end(lines);
  });
}
