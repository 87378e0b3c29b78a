import { Client, Pool, type PoolClient } from 'pg';
import type { Asker } from '#api/database/cancel-when-gone.js';
import { ClanTransactions, type ClanDatabase } from '#api/database/clan-transaction.js';
import { createServicePool } from '#api/database/service-pool.js';
import { as, changedBy, REFUSED } from '../support/as-clan.js';
import { aChart, aClan, aKey, aPlayer, type TestClan } from '../support/factories.js';
import { createTestDatabase, type TestDatabase } from '../support/test-database.js';

let database: TestDatabase;
let ours: TestClan;
let theirs: TestClan;

beforeAll(async () => {
  database = await createTestDatabase();
  ours = await aClan(database.owner);
  theirs = await aClan(database.owner);
  // Something to see, without which a policy need not be asked at all.
  await aPlayer(database.owner, ours);
  await aPlayer(database.owner, theirs);
});
afterAll(() => database.drop());

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

  it('glances once: entered and asked in one message, refused alike, and never outside of a clan', async () => {
    const clan = await aClan(database.owner);
    await aPlayer(database.owner, clan);
    const { credential } = await aKey(database.owner, clan.id);
    const count = (db: ClanDatabase): Promise<unknown[]> => db.query('select count(*)::int as players from player');
    const glance = (work: (db: ClanDatabase) => Promise<unknown>): Promise<unknown> =>
      database.transactions.run(credential, 'glance', work);
    for (const time of ['first', 'later', 'later still'])
      expect([time, await glance(count)]).toEqual([time, [{ players: 1 }]]);
    await expect(glance(async (db) => [await count(db), await count(db)])).rejects.toThrow('one statement');
    await expect(glance(() => Promise.resolve('in'))).rejects.toThrow('entered nowhere');
    await expect(glance((db) => db.query('select nothing from nowhere'))).rejects.toMatchObject({ code: '42P01' });
    expect(await glance(count)).toEqual([{ players: 1 }]);
    await database.owner.query('update api_key set revoked_at = now() where key_hash = $1', [credential.keyHash]);
    await expect(glance(count)).rejects.toMatchObject({ code: 'access.key_refused' });
    await expect(glance(count)).rejects.toMatchObject({ code: 'access.key_refused' });
  });

  it('works again in a transaction, at one moment, where a glance was not enough', async () => {
    const clan = await aClan(database.owner);
    const { credential } = await aKey(database.owner, clan.id);
    const now = async (db: ClanDatabase): Promise<unknown> =>
      (await db.query('select transaction_timestamp()::text as began, app.clan()::text as clan'))[0];
    let works = 0;
    const ask = (questions: number): Promise<unknown[]> =>
      database.transactions.glanceOrRead(credential, async (db) => {
        works += 1;
        const answers = [];
        for (let question = 0; question < questions; question += 1) answers.push(await now(db));
        return answers;
      });
    // The first of a key reads in a transaction, which may ask as often as it likes.
    await ask(2);
    expect(works).toBe(1);
    expect(await ask(1)).toMatchObject([{ clan: clan.id }]);
    expect(works).toBe(2);
    const [first, second] = await ask(2);
    expect(works).toBe(4);
    expect(first).toMatchObject({ clan: clan.id });
    expect(second).toEqual(first);
    const failing = database.transactions.glanceOrRead(credential, (db) => db.query('select nothing from nowhere'));
    await expect(failing).rejects.toMatchObject({ code: '42P01' });
    await database.owner.query('update api_key set revoked_at = now() where key_hash = $1', [credential.keyHash]);
    for (const questions of [1, 2]) await expect(ask(questions)).rejects.toMatchObject({ code: 'access.key_refused' });
  });

  it('answers glances that go out together each for its own clan, and refuses and fails each alone', async () => {
    const clans = await Promise.all([aClan(database.owner), aClan(database.owner), aClan(database.owner)]);
    const [, , revoked] = clans;
    const glance = (of: TestClan, sql = 'select app.clan() as clan'): Promise<unknown> =>
      database.transactions.run(of.credential, 'glance', (db) => db.query(sql));
    // Each key has to have entered once.
    for (const clan of clans) await glance(clan);
    await database.owner.query('update api_key set revoked_at = now() where clan_id = $1', [revoked.id]);
    const asked = Array.from({ length: 20 }, (_, place) => clans[place % 2] ?? revoked);
    const answers = await Promise.allSettled([
      ...asked.map((clan) => glance(clan)),
      glance(revoked),
      glance(asked[0] ?? revoked, 'select 1 / 0'),
      ...asked.map((clan) => glance(clan)),
    ]);
    const own = asked.map(({ id }) => ({ status: 'fulfilled', value: [{ clan: id }] }));
    const failed = (code: string): object => ({ status: 'rejected', reason: expect.objectContaining({ code }) });
    expect(answers).toEqual([...own, failed('access.key_refused'), failed('22012'), ...own]);
  });

  it('answers a glance behind a refused one of the same text, which no connection has parsed yet', async () => {
    const [clan, revoked] = await Promise.all([aClan(database.owner), aClan(database.owner)]);
    const glance = (of: TestClan, sql: string): Promise<unknown> =>
      database.transactions.run(of.credential, 'glance', (db) => db.query(sql));
    for (const entering of [clan, revoked]) await glance(entering, 'select app.clan() as clan');
    await database.owner.query('update api_key set revoked_at = now() where clan_id = $1', [revoked.id]);
    const text = 'select app.clan() as clan, 1 as never_asked_before';
    const answers = await Promise.allSettled([glance(revoked, text), glance(clan, text)]);
    expect(answers).toEqual([
      { status: 'rejected', reason: expect.objectContaining({ code: 'access.key_refused' }) },
      { status: 'fulfilled', value: [{ clan: clan.id, never_asked_before: 1 }] },
    ]);
  });

  it('leaves no digest where PostgreSQL shows a role its own sessions', async () => {
    const clan = await aClan(database.owner);
    const digest = clan.credential.keyHash.toString('hex');
    // While the work goes on, entering is the last statement of its session.
    const shown = await database.transactions.run(clan.credential, 'read', async () => {
      const { rows } = await database.service.query<{ query: string }>('select query from pg_stat_activity');
      return rows.map(({ query }) => query);
    });
    expect(shown).toContainEqual(expect.stringContaining('from app.enter('));
    expect(shown.filter((query) => query.includes(digest))).toEqual([]);
  });

  it('tells clan, key and rights', async () => {
    const clan = await aClan(database.owner, { rights: ['read'] });
    const told = await database.transactions.run(clan.credential, 'read', ({ clanId, keyId, rights }) =>
      Promise.resolve({ clanId, keyId, rights }),
    );
    expect(told).toEqual({ clanId: clan.id, keyId: clan.keyId, rights: ['read'] });
  });

  it('with a key for reading writes nothing, neither by asking nor by SQL', async () => {
    const clan = await aClan(database.owner, { rights: ['read'] });
    await expect(as(database, clan, 'select 1')).rejects.toMatchObject({ code: 'access.right_missing' });
    await onOneConnection(async (client) => {
      for (const intrusion of [
        `update clan set name = 'Renamed'`,
        'set transaction read write',
        `select set_config('transaction_read_only', 'off', true)`,
      ]) {
        await client.query('begin');
        await client.query('select app.enter($1)', [clan.credential.keyHash]);
        await expect(client.query(intrusion)).rejects.toMatchObject({ code: expect.stringMatching(/^25/) });
        await client.query('rollback');
      }
    });
  });

  it('with a key that may not manage makes and changes no keys', async () => {
    const clan = await aClan(database.owner, { rights: ['read', 'write'] });
    const make = `insert into api_key (clan_id, id, name, prefix, key_hash, rights)
                  values ($1, $1, 'more', 'rbk_', sha256('x'), array['manage'])`;
    await expect(as(database, clan, make, [clan.id])).rejects.toMatchObject({ code: REFUSED.notAllowed });
    expect(await changedBy(database, clan, `update api_key set expires_at = null`)).toBe(0);
  });

  it('cannot be forged', async () => {
    const forgeries = ['nonsense', `${theirs.id} ${theirs.keyId} ${'0'.repeat(64)}`, `${theirs.id} ${theirs.keyId} `];
    for (const forgery of forgeries) {
      await expect(
        transaction(database.service, async (client) => {
          await client.query(`select set_config('roundbook.clan', $1, true)`, [forgery]);
          await client.query('select count(*) from player');
        }),
      ).rejects.toMatchObject({ code: REFUSED.forged });
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
      await expect(client.query('select count(*) from player')).rejects.toMatchObject({ code: REFUSED.forged });
      await client.query('begin');
      await client.query(`select set_config('roundbook.clan', $1, true)`, [rows[0]?.value]);
      await expect(client.query('select count(*) from player')).rejects.toMatchObject({ code: REFUSED.forged });
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
      ).rejects.toMatchObject({ code: REFUSED.forged });
    });
  });

  it('ends with the seal key it was sealed with', async () => {
    const interrupted = database.transactions.run(ours.credential, 'write', async (db) => {
      await db.query('select app.clan()');
      await database.owner.query('select app.renew_seal_key()');
      await db.query('select app.clan()');
    });
    await expect(interrupted).rejects.toMatchObject({ code: REFUSED.forged });
    expect(await as(database, ours, 'select app.clan() as clan')).toEqual([{ clan: ours.id }]);
  });

  it('gives the service no way to the seal, to digests of keys, or to another role', async () => {
    for (const sql of [
      'select app.seal(null)',
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
      await expect(as(database, ours, sql)).rejects.toMatchObject({ code: REFUSED.notAllowed });
    }
  });

  it('lets the service execute these functions and no others', async () => {
    const { rows } = await database.owner.query<{ name: string }>(
      `select p.proname as name from pg_proc p join pg_namespace n on n.oid = p.pronamespace
        where n.nspname in ('app', 'public') and has_function_privilege('roundbook_service', p.oid, 'execute') order by 1`,
    );
    expect(rows.map(({ name }) => name)).toEqual([
      'analyze_grown_tables',
      'archive_revision',
      'change_passphrase',
      'clan',
      'clan_words',
      'end_session',
      'enter',
      'enter_link',
      'erase_person',
      'erase_player',
      'follow_event',
      'foreign_terms',
      'hand_over',
      'invitation_behind',
      'is_public',
      'join_clan',
      'join_clan_as',
      'key_id',
      'leave_clan',
      'link_identity',
      'may',
      'move_session',
      'my_scope',
      'next_delivery',
      'note_use',
      'open_chart',
      'own_scopes',
      'passphrase_of',
      'person_sessions',
      'player_by_key',
      'raise_chart',
      'raise_scope_revision',
      'remove_member',
      'renew_webhook_secret',
      'rights',
      'rights_of_role',
      'scopes',
      'service_is_fresh',
      'session_of',
      'set_role',
      'set_visibility',
      'settle_delivery',
      'sign_in',
      'sign_in_elsewhere',
      'sign_up',
      'take_deliveries',
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
    await expect(pool.query('select app.clan()')).rejects.toMatchObject({ code: REFUSED.notEntered });
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

  it('is not kept by the cancelling for somebody who has left, which waits for a connection itself', async () => {
    // Without an end to the waiting, so that who waits for the other shows as an answer that never comes.
    pool.options.connectionTimeoutMillis = 0;
    const gone: Asker = { destroyed: true, writableFinished: false, once: () => undefined, off: () => undefined };
    const one = { ...ours.credential, asker: gone };
    await transactions.run(one, 'read', () => Promise.resolve());
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
    expect(await as(database, ours, 'select name from clan')).toEqual([{ name: ours.name }]);
  });

  it('has committed with the last statement, behind which nothing more is asked', async () => {
    const clan = await aClan(database.owner);
    const names = (): Promise<unknown> => as(database, clan, 'select name from clan');
    // The first request of a key waits until it was let in, the next does not.
    for (const name of ['Once', 'Twice', 'Three Times']) {
      await transactions.run(clan.credential, 'write', (db) => db.last('update clan set name = $1', [name]));
      expect(await names()).toEqual([{ name }]);
    }
    const more = transactions.run(clan.credential, 'write', async (db) => {
      await db.last('update clan set name = $1', ['Four Times']);
      await db.query('select app.clan()');
    });
    await expect(more).rejects.toMatchObject({ code: REFUSED.notEntered });
    expect(await names()).toEqual([{ name: 'Four Times' }]);
    await expectClean();
  });

  it('was rolled back when its last statement failed, or one before it', async () => {
    const failing = transactions.run(ours.credential, 'write', async (db) => {
      await db.query(`update clan set name = 'Renamed'`);
      await db.last('select 1 / $1::int', [0]);
    });
    await expect(failing).rejects.toMatchObject({ code: '22012' });
    await expectClean();
    const swallowed = transactions.run(ours.credential, 'write', async (db) => {
      await db.last('select 1 / $1::int', [0]).catch(() => undefined);
    });
    await expect(swallowed).rejects.toMatchObject({ code: '22012' });
    await expectClean();
    const before = transactions.run(ours.credential, 'write', async (db) => {
      const dividing = db.query('select 1 / 0');
      await Promise.all([dividing, db.last(`update clan set name = $1`, ['Renamed'])]);
    });
    await expect(before).rejects.toMatchObject({ code: '22012' });
    await expectClean();
    expect(await as(database, ours, 'select name from clan')).toEqual([{ name: ours.name }]);
  });

  it('does not commit for a member who lost the right meanwhile', async () => {
    const clan = await aClan(database.owner);
    const { credential, keyId } = await aKey(database.owner, clan.id, { rights: ['read', 'write', 'manage'] });
    const managing = { ...credential, needs: 'manage' as const };
    await transactions.run(managing, 'write', (db) => db.query('select app.clan()'));
    await database.owner.query(`update api_key set rights = array['read', 'write'] where id = $1`, [keyId]);
    const attempt = transactions.run(managing, 'write', (db) => db.last('update clan set name = $1', ['Renamed']));
    await expect(attempt).rejects.toMatchObject({ code: 'access.right_missing' });
    expect(await as(database, clan, 'select name from clan')).toEqual([{ name: clan.name }]);
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
    expect(await as(database, clan, 'select play_type from play')).toEqual([{ play_type: 'punt' }]);
  });
});

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
