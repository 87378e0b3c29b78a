import { readFile } from 'node:fs/promises';
import { PLAY_FIELDS, columnName, type PlayField } from '#domain/charting/play-fields.js';
import { STARTER_TERMS } from '#domain/charting/starter-vocabulary.js';
import { normaliseTerm } from '#domain/charting/normalise-term.js';
import { connected } from '#api/database/connected.js';
import { loadStarterVocabulary } from '#api/database/load-starter-vocabulary.js';
import { migrate, migrateDown } from '#api/database/migrate.js';
import { dumpSchema } from '#api/database/schema-dump.js';
import { MIGRATIONS } from '#migrations/index.js';
import { databaseServer } from '../support/database-server.js';
import { createTestDatabase, EMPTY_DATABASE, type TestDatabase } from '../support/test-database.js';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase({ copyOf: EMPTY_DATABASE });
});
afterAll(() => database.drop());

function dump(): Promise<string> {
  return connected(database.ownerUrl, dumpSchema);
}

async function left(): Promise<string[]> {
  const { rows } = await database.owner.query<{ name: string }>(
    `select relname::text as name from pg_class where relnamespace = 'public'::regnamespace
        and relkind in ('r', 'v', 'm', 'S') and relname not like 'schema_migration%'
      union all select nspname from pg_namespace where nspname = 'app'
      union all select proname from pg_proc where pronamespace = 'public'::regnamespace
      union all select typname from pg_type
                 where typnamespace = 'public'::regnamespace and typname not like '%schema_migration%'`,
  );
  return rows.map(({ name }) => name);
}

describe('the migrations', () => {
  let first: string;

  it('run in order, each once', async () => {
    const { migrations, terms } = await migrate(database.ownerUrl);
    expect(migrations).toEqual(MIGRATIONS.map(({ name }) => name));
    expect(terms).toBe(STARTER_TERMS.length);
    expect(await migrate(database.ownerUrl)).toEqual({ migrations: [], terms: 0 });
    first = await dump();
  });

  it('leave the schema that migrations/schema.sql shows', async () => {
    // Written by `npm run schema`.
    expect(await readFile('migrations/schema.sql', 'utf8')).toBe(first);
  });

  it('go down to nothing and up to the same again, one step or all at a time', async () => {
    await migrateDown(database.ownerUrl);
    expect(await left()).toEqual([]);
    for (let steps = 1; steps <= MIGRATIONS.length; steps += 1) {
      await migrate(database.ownerUrl);
      await migrateDown(database.ownerUrl, steps);
    }
    expect(await left()).toEqual([]);
    await migrate(database.ownerUrl);
    expect(await dump()).toBe(first);
  });

  it('wait for each other when two services start at once', async () => {
    await migrateDown(database.ownerUrl);
    const both = await Promise.all([migrate(database.ownerUrl), migrate(database.ownerUrl)]);
    expect(both.map(({ migrations }) => migrations.length).sort()).toEqual([0, MIGRATIONS.length]);
    expect(await dump()).toBe(first);
  });

  it('refuse to run as anybody but the owner', async () => {
    const { adminUrl } = await databaseServer();
    await expect(migrate(adminUrl)).rejects.toThrow('run as roundbook_owner');
    await expect(migrate(database.serviceUrl)).rejects.toThrow('run as roundbook_owner');
  });

  it('print a drift of any kind', async () => {
    for (const drift of [
      'alter table player add column extra text',
      'alter table player alter column handle drop not null',
      'alter table chart alter column plays set default 1',
      'alter table game drop constraint game_score_check',
      'create index extra_idx on player (handle)',
      'drop policy player_delete on player',
      'alter policy player_select on player using (true)',
      'alter table player no force row level security',
      'grant insert on scope_reader to roundbook_service',
      'grant select (key_hash) on api_key to roundbook_service',
      'grant execute on function app.seal to roundbook_service',
      'grant create on schema public to roundbook_service',
      'drop trigger term_check on term',
      'alter function app.clan() security invoker',
      'create view extra as select 1 as one',
    ]) {
      const changed = await connected(database.ownerUrl, async (owner) => {
        await owner.query(`begin; ${drift}`);
        return dumpSchema(owner);
      });
      expect(changed === first ? `nothing printed of: ${drift}` : 'printed').toBe('printed');
    }
    expect(await dump()).toBe(first);
  });
});

describe('table play', () => {
  const TYPES: Record<PlayField['type'], string> = {
    number: 'smallint',
    choice: 'text',
    term: 'integer',
    terms: 'integer[]',
  };
  /** What a play has beside the fields of the catalogue. */
  const OTHERS = [
    ...['clan_id', 'chart_id', 'play_number', 'order_in_game', 'scope_id', 'game_id'],
    ...['offense_player_id', 'defense_player_id', 'known_by', 'adjustment_details', 'note'],
  ];

  async function constraint(name: string): Promise<string> {
    const { rows } = await database.owner.query<{ text: string }>(
      `select pg_get_constraintdef(oid) as text from pg_constraint where conrelid = 'play'::regclass and conname = $1`,
      [name],
    );
    return rows[0]?.text ?? '';
  }

  it('has one column of the right type for each field of the catalogue, and no other', async () => {
    const { rows } = await database.owner.query<{ name: string; type: string }>(
      `select attname as name, format_type(atttypid, atttypmod) as type from pg_attribute
        where attrelid = 'play'::regclass and attnum > 0 and not attisdropped and attname <> all ($1)`,
      [OTHERS],
    );
    expect(new Map(rows.map(({ name, type }) => [name, type]))).toEqual(
      new Map(PLAY_FIELDS.map(({ name, type }) => [columnName(name), TYPES[type]])),
    );
  });

  it('allows the words of the catalogue and no other', async () => {
    for (const field of PLAY_FIELDS) {
      if (field.type !== 'choice') continue;
      const text = await constraint(`play_${columnName(field.name)}_check`);
      const words = [...text.matchAll(/'([^']*)'::text/g)].map(([, word]) => word);
      expect({ field: field.name, words }).toEqual({ field: field.name, words: field.choices });
    }
  });

  it('allows the ranges of the catalogue and no other', async () => {
    const text = await constraint('play_range_check');
    const ranges = [
      ...text.matchAll(/\((\w+) >= '?\(?(-?\d+)\)?'?(?:::\w+)?\) AND \(\1 <= '?\(?(-?\d+)\)?'?(?:::\w+)?\)/g),
    ];
    const expected = PLAY_FIELDS.filter((field) => field.type === 'number');
    expect(ranges.map(([, column, minimum, maximum]) => [column, Number(minimum), Number(maximum)])).toEqual(
      expected.map(({ name, minimum, maximum }) => [columnName(name), minimum, maximum]),
    );
  });

  it('has no down on kicks to start play and on tries', async () => {
    expect(await constraint('play_down_check')).toContain(
      `'kickoff'::text, 'free kick'::text, 'try kick'::text, 'two-point try'::text`,
    );
  });
});

describe('the starter vocabulary', () => {
  interface TermRow {
    readonly id: number;
    readonly code: string;
    readonly name: string;
    readonly parent: string | null;
    readonly words: string[];
  }

  async function stored(): Promise<TermRow[]> {
    const { rows } = await database.owner.query<TermRow>(
      `select t.id, t.code, t.name, p.code as parent,
              array(select s.normalised from term_synonym s where s.term_id = t.id) as words
         from term t left join term p on p.id = t.parent_id where t.clan_id is null order by t.id`,
    );
    // Sorted here: the order of text in the database is the server's.
    return rows.map((row) => ({ ...row, words: row.words.sort() }));
  }

  it('has the ids 1 to N in the order of the list, with parents and synonyms', async () => {
    expect(await stored()).toEqual(
      STARTER_TERMS.map(({ code, name, parent, synonyms }, index) => ({
        id: index + 1,
        code,
        name,
        parent: parent ?? null,
        words: [...new Set(synonyms.map(normaliseTerm))].filter((word) => word !== normaliseTerm(name)).sort(),
      })),
    );
  });

  it('changes nothing when it is loaded again, and mends what is not as listed', async () => {
    const before = await stored();
    expect(await connected(database.ownerUrl, loadStarterVocabulary)).toBe(0);
    expect(await stored()).toEqual(before);
    await database.owner.query(
      `update term set name = 'Else', normalised_name = 'else', parent_id = null where id = 1`,
    );
    await connected(database.ownerUrl, loadStarterVocabulary);
    expect(await stored()).toEqual(before);
  });
});
