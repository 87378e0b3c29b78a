import { uuidv7 } from 'uuidv7';
import { hashKey } from '#api/database/hash-key.js';
import { as, changedBy, refusal, REFUSED, SHARE } from '../support/as-clan.js';
import { catalogReferences, catalogTables, type CatalogTable } from '../support/catalog.js';
import { aChart, aClan, aGame, aKey, aMember, aPlay, aPlayer, aScope, type TestClan } from '../support/factories.js';
import { newIds, populate, type Ids } from '../support/populate.js';
import { createTestDatabase, type TestDatabase } from '../support/test-database.js';

/** Tables that say nothing of a clan and that the service has no right to. */
const OF_THE_OWNER = ['person', 'person_identity', 'person_session', 'schema_migration', 'seal_key'];

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
        database,
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
    expect(await as(database, ours, 'select id from clan')).toEqual([{ id: ours.id }]);
    expect(await as(database, ours, 'select distinct clan_id from scope_reader')).toEqual([{ clan_id: ours.id }]);
  });

  it('lets nobody change or delete rows of another clan', async () => {
    await eachTable(clanTables(), async ({ name, rights, insertable }) => {
      const update = `update ${name} set ${insertable.at(-1) ?? 'clan_id'} = default where clan_id = $1`;
      const remove = `delete from ${name} where clan_id = $1`;
      for (const [right, sql] of [
        ['update', update],
        ['delete', remove],
      ] as const) {
        const attempt = changedBy(database, ours, sql, [theirs.id]);
        // A right on some columns only may not cover the one that was tried.
        if (rights.includes(right)) expect([0, REFUSED.notAllowed]).toContain(await attempt.catch(refusal));
        else await expect(attempt).rejects.toMatchObject({ code: REFUSED.notAllowed });
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
        await expect(as(database, ours, copy, [rows[0]?.row])).rejects.toMatchObject({ code: REFUSED.notAllowed });
      },
    );
  });

  it('hands no row over to another clan, nor takes one', async () => {
    await eachTable(
      clanTables().filter(({ rights, name }) => rights.includes('update') && name !== 'api_key'),
      async ({ name, hasScope }) => {
        const moved = await changedBy(database, ours, `update ${name} set clan_id = $1 where clan_id = $2`, [
          theirs.id,
          ours.id,
        ]).catch(refusal);
        expect(moved).toBe(name === 'term' ? REFUSED.checkFailed : REFUSED.notAllowed);
        if (!hasScope) return;
        const rescoped = changedBy(database, ours, `update ${name} set scope_id = $1`, [theirs.privateScopeId]);
        await expect(rescoped).rejects.toMatchObject({ code: REFUSED.notAllowed });
      },
    );
  });

  it('raises when no clan was entered, instead of looking empty', async () => {
    await eachTable(tables, async ({ name, readable }) => {
      const read = database.service.query(`select ${readable.join(', ')} from ${name}`);
      await expect(read).rejects.toMatchObject({ code: REFUSED.notEntered });
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
    const references = await catalogReferences(database.owner);
    expect(references.length).toBeGreaterThan(15);
    for (const { table, column, target, writable } of references) {
      if (!writable) continue;
      const point = (id: string | undefined) =>
        changedBy(database, ours, `update ${table} set ${column} = $1`, [id]).then(
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
      as(database, ours, `update term set parent_id = $1 where id = $2`, [id, ourTerm]).then(
        () => 'accepted',
        (error: unknown) => String(error),
      );
    expect(await refer(theirTerm)).toBe(await refer(2_000_000_000));
    expect(await refer(theirTerm)).toContain('no term of this clan');
    const word = `insert into term_synonym (clan_id, term_id, kind, normalised) select $1, $2, kind, 'x' from term where id = 1`;
    await expect(as(database, ours, word, [ours.id, theirTerm])).rejects.toMatchObject({ code: REFUSED.noSuchRow });
  });
});

describe('the vocabulary', () => {
  it("is the starter terms and the clan's own; nobody but the owner changes a starter term", async () => {
    const seen = await as(database, ours, 'select id from term where clan_id is not null');
    expect(seen).toEqual([{ id: ourTerm }]);
    expect(await changedBy(database, ours, `update term set name = 'Mine' where code is not null`)).toBe(0);
    const add = `insert into term (kind, code, name, normalised_name) values ('front', 'front.mine', 'Mine', 'mine')`;
    await expect(as(database, ours, add)).rejects.toMatchObject({ code: REFUSED.notAllowed });
  });

  it('keeps kind, code and clan of a term, and lets it stand for a starter term of its kind only', async () => {
    await expect(as(database, ours, `update term set kind = 'front' where id = $1`, [ourTerm])).rejects.toMatchObject({
      code: REFUSED.checkFailed,
    });
    const stand = `update term set starter_id = (select min(s.id) from term s where s.kind <> term.kind) where id = $1`;
    await expect(as(database, ours, stand, [ourTerm])).rejects.toMatchObject({ code: REFUSED.checkFailed });
  });

  it("says of another clan's term only what it stands for, and only where that clan shows something", async () => {
    const stranger = await aClan(database.owner);
    const term = await populate(database.owner, stranger, newIds());
    const reader = await aClan(database.owner);
    const asked = () => as(database, reader, 'select * from app.foreign_terms($1)', [[term, 1, theirTerm]]);
    expect(await asked()).toEqual([]);
    const player = await aPlayer(database.owner, stranger);
    await as(database, stranger, SHARE, ['player', player, reader.id]);
    expect(await asked()).toEqual([{ term_id: term, starter_id: 1 }]);
  });
});

describe('inside a clan', () => {
  it('lets the service write rows of the clan in every table', async () => {
    const clan = await aClan(database.owner);
    const ofClan = newIds();
    await database.transactions.run(clan.credential, 'write', (db) => populate(db.client, clan, ofClan, 'service'));
    await eachTable(clanTables(), async ({ name }) => {
      expect(await as(database, clan, `select from ${name} where clan_id = $1 limit 1`, [clan.id])).toHaveLength(1);
    });
  });

  it("shows a person's scope to the holder of that person's key only", async () => {
    const clan = await aClan(database.owner);
    const scope = await aScope(database.owner, clan, 'person');
    const holder = { ...clan, ...(await aKey(database.owner, clan.id, { person_scope_id: scope })) };
    const player = await aPlayer(database.owner, clan, { scope_id: scope });
    expect(await as(database, holder, 'select id from player where clan_id = $1', [clan.id])).toEqual([{ id: player }]);
    expect(await as(database, clan, 'select id from player where clan_id = $1', [clan.id])).toEqual([]);
    await expect(as(database, clan, 'update player set scope_id = $1', [scope])).resolves.toEqual([]);
    await expect(as(database, holder, 'update player set scope_id = $1', [clan.privateScopeId])).resolves.toEqual([]);
    await expect(as(database, clan, 'update player set scope_id = $1', [scope])).rejects.toMatchObject({
      code: REFUSED.notAllowed,
    });
  });

  it("signs the audit with one's own key, and never rewrites it", async () => {
    const other = await aKey(database.owner, ours.id);
    const sign = `insert into audit_entry (clan_id, id, actor_key_id, action, subject_kind) values ($1, $2, $3, 'a', 'b')`;
    await expect(as(database, ours, sign, [ours.id, uuidv7(), other.keyId])).rejects.toMatchObject({
      code: REFUSED.notAllowed,
    });
    await expect(as(database, ours, sign, [ours.id, uuidv7(), ours.keyId])).resolves.toEqual([]);
    for (const sql of [
      `update audit_entry set action = 'c'`,
      'delete from audit_entry',
      `update round_report set seed = 2`,
    ]) {
      await expect(as(database, ours, sql)).rejects.toMatchObject({ code: REFUSED.notAllowed });
    }
  });

  it("raises the revisions of own scopes only, and the archive's with them", async () => {
    const revision = async (clan: TestClan) =>
      (await as(database, clan, 'select app.archive_revision() as r'))[0]?.['r'];
    const [before, beforeTheirs] = [await revision(ours), await revision(theirs)];
    await as(database, ours, 'select app.raise_scope_revision($1)', [[ours.privateScopeId, theirs.privateScopeId]]);
    expect(await revision(ours)).not.toBe(before);
    expect(await revision(theirs)).toBe(beforeTheirs);
  });

  it('finds exactly the records of a player that the reader may see, the own ones first', async () => {
    const [reader, archive, stranger] = [
      await aClan(database.owner),
      await aClan(database.owner),
      await aClan(database.owner),
    ];
    const shared = await aScope(database.owner, archive);
    await database.owner.query('insert into scope_reader (clan_id, scope_id) values ($1, $2)', [reader.id, shared]);
    const known = await aPlayer(database.owner, archive, { handle: 'Mossback', scope_id: shared });
    const kept = await aPlayer(database.owner, archive, { handle: 'Kept back', linked_player_id: known });
    const own = await aPlayer(database.owner, reader, { handle: 'moss', linked_player_id: known });
    const found = async (who: TestClan, asked: string): Promise<unknown[]> => {
      const records = await as(
        database,
        who,
        'select handle, identity, archive = app.archive_revision() as now from app.player_by_key($1, $2)',
        [who.credential.keyHash, asked],
      );
      return records;
    };
    const record = (handle: string) => ({ handle, identity: known, now: true });
    for (const asked of [known, own]) {
      expect(await found(reader, asked)).toEqual([record('moss'), record('Mossback')]);
      expect(await found(stranger, asked)).toEqual([]);
    }
    expect(await found(reader, kept)).toEqual([]);
    expect(await found(archive, own)).toEqual([]);
    expect(await found(archive, known)).toEqual(expect.arrayContaining([record('Kept back'), record('Mossback')]));
  });

  it('finds by a key what the policies show to it: private, personal, shared and public records, by keys and sessions', async () => {
    const { owner } = database;
    const [clan, neighbour, stranger] = [await aClan(owner), await aClan(owner), await aClan(owner)];
    const personal = await aScope(owner, clan, 'person');
    const holder = { ...clan, ...(await aKey(owner, clan.id, { person_scope_id: personal })) };
    const { session } = await aMember(owner, clan.id, 'reader');
    const member = { ...clan, credential: { keyHash: hashKey(session) } };
    const shared = await aScope(owner, clan);
    const unlisted = await aScope(owner, neighbour);
    const open = await aScope(owner, neighbour);
    await owner.query('insert into scope_reader (clan_id, scope_id) values ($1, $2)', [neighbour.id, shared]);
    await owner.query('insert into scope_reader (clan_id, scope_id) values (null, $1)', [open]);
    const scopes = [clan.privateScopeId, personal, shared, neighbour.privateScopeId, unlisted, open];
    const players: string[] = [];
    // Each scope holds a record of its own and one that is linked to the first of all.
    for (const scope_id of scopes) {
      const by = [clan.privateScopeId, personal, shared].includes(scope_id) ? clan : neighbour;
      players.push(await aPlayer(owner, by, { scope_id }));
      players.push(await aPlayer(owner, by, { scope_id, linked_player_id: players[0] }));
    }
    const byKey = `select id, handle, identity, archive = app.archive_revision() as now
      from app.player_by_key($1, $2) order by id`;
    const byPolicies = `with asked as (select coalesce(linked_player_id, id) as same from player where id = $1)
      select id, handle, same as identity, true as now from player, asked
       where id = same or linked_player_id = same order by id`;
    let seen = 0;
    for (const who of [clan, holder, member, neighbour, stranger]) {
      for (const player of players) {
        const read = (sql: string, parameters: unknown[]): Promise<unknown[]> =>
          database.transactions.run(who.credential, 'read', (db) => db.query(sql, parameters));
        const found = await read(byKey, [who.credential.keyHash, player]);
        expect(found).toEqual(await read(byPolicies, [player]));
        seen += found.length;
      }
    }
    // Neither nothing nor everything, or the two would agree whatever they did.
    expect(seen).toBeGreaterThan(40);
    expect(seen).toBeLessThan(players.length ** 2);
    const glance = (who: TestClan): Promise<unknown[]> =>
      database.transactions.run(who.credential, 'glance', (db) =>
        db.queryByKey('select id from app.player_by_key($1, $2)', [players[0]]),
      );
    expect(await Promise.all([glance(stranger), glance(clan), glance(holder)])).toEqual([
      [],
      expect.arrayContaining([{ id: players[0] }]),
      expect.arrayContaining([{ id: players[3] }]),
    ]);
    await owner.query('update api_key set revoked_at = now() where key_hash = $1', [clan.credential.keyHash]);
    await owner.query(`update api_key set expires_at = now() - interval '1 s' where key_hash = $1`, [
      holder.credential.keyHash,
    ]);
    await owner.query('delete from app.person_session where token_hash = $1', [member.credential.keyHash]);
    for (const who of [clan, holder, member]) {
      await expect(glance(who)).rejects.toMatchObject({ code: 'access.key_refused' });
    }
  });

  it('opens and raises own charts only, and none of another person of the clan', async () => {
    const clan = await aClan(database.owner);
    const scope = await aScope(database.owner, clan, 'person');
    const holder = { ...clan, ...(await aKey(database.owner, clan.id, { person_scope_id: scope })) };
    const common = await aChart(database.owner, clan);
    const personal = await aChart(database.owner, clan, {
      game: await aGame(database.owner, clan, { scopeId: scope }),
    });
    const open = 'select game_id as game from app.open_chart($1, 1)';
    const raise = `select app.raise_chart($1, 1, 0, '')`;
    const revision = async (chart: string): Promise<unknown> =>
      (await database.owner.query('select revision from chart where id = $1', [chart])).rows;
    for (const { who, chart, may } of [
      { who: clan, chart: common, may: true },
      { who: holder, chart: personal, may: true },
      { who: clan, chart: personal, may: false },
      { who: ours, chart: common, may: false },
    ]) {
      const before = await revision(chart.id);
      expect(await as(database, who, open, [chart.id])).toEqual(may ? [{ game: chart.game.id }] : []);
      const raising = as(database, who, raise, [chart.id]);
      if (may) await raising;
      else await expect(raising).rejects.toMatchObject({ code: 'RB004' });
      if (may) expect(await revision(chart.id)).not.toEqual(before);
      else expect(await revision(chart.id)).toEqual(before);
    }
  });

  it("tells a clan's words to nobody else", async () => {
    const words = 'select app.clan_words($1)::jsonb as words';
    expect(await as(database, theirs, words, [theirs.id])).toEqual([
      { words: expect.arrayContaining([expect.objectContaining({ id: theirTerm, own: true })]) },
    ]);
    expect(await as(database, ours, words, [theirs.id])).toEqual([{ words: [] }]);
  });

  it('links players one level deep', async () => {
    const clan = await aClan(database.owner);
    const [one, two, three] = [
      await aPlayer(database.owner, clan),
      await aPlayer(database.owner, clan),
      await aPlayer(database.owner, clan),
    ];
    const link = (from: string, to: string) =>
      as(database, clan, 'update player set linked_player_id = $2 where id = $1', [from, to]);
    await expect(link(one, one)).rejects.toMatchObject({ code: REFUSED.checkFailed });
    await link(one, two);
    await expect(link(two, three)).rejects.toMatchObject({ code: REFUSED.checkFailed });
    await expect(link(two, one)).rejects.toMatchObject({ code: REFUSED.checkFailed });
    await expect(link(three, one)).rejects.toMatchObject({ code: REFUSED.checkFailed });
    await link(three, two);
    // Another clan's record, seen or not: nothing is looked up there.
    await link(await aPlayer(database.owner, clan), ids.home);
  });

  it('takes plays of the two players of the game only, and keeps those two', async () => {
    const clan = await aClan(database.owner);
    const chart = await aChart(database.owner, clan);
    const bystander = await aPlayer(database.owner, clan);
    await aPlay(database.owner, clan, { chart });
    const code = { code: REFUSED.noSuchRow };
    await expect(aPlay(database.owner, clan, { chart, row: { offense_player_id: bystander } })).rejects.toMatchObject(
      code,
    );
    await expect(as(database, clan, 'update play set defense_player_id = $1', [bystander])).rejects.toMatchObject(code);
    await expect(as(database, clan, 'update game set home_player_id = $1', [bystander])).rejects.toMatchObject(code);
    await as(database, clan, 'update game set home_player_id = away_player_id, away_player_id = home_player_id');
    await expect(
      as(database, clan, 'delete from player where id = $1', [chart.game.homePlayerId]),
    ).rejects.toMatchObject(code);
  });

  it('deletes a game with its charts, packs and plays', async () => {
    const clan = await aClan(database.owner);
    const of = newIds();
    await populate(database.owner, clan, of);
    await as(database, clan, 'delete from game where id = $1', [of.game]);
    for (const table of ['chart', 'chart_pack', 'play', 'game_video', 'own_call']) {
      expect(await as(database, clan, `select from ${table} where clan_id = $1`, [clan.id])).toEqual([]);
    }
  });

  it('deletes a clan with a row in every table, and leaves the rows of the other', async () => {
    const [gone, stays] = [await aClan(database.owner), await aClan(database.owner)];
    for (const clan of [gone, stays]) await populate(database.owner, clan, newIds());
    await database.owner.query('select app.delete_clan($1)', [gone.id]);
    await eachTable(clanTables(), async ({ name }) => {
      const count = async ({ id }: TestClan) =>
        (await database.owner.query(`select from ${name} where clan_id = $1`, [id])).rowCount ?? 0;
      expect({ name, left: await count(gone) }).toEqual({ name, left: 0 });
      expect(await count(stays)).toBeGreaterThan(0);
    });
  });
});
