import type { Response } from 'supertest';
import { CALLERS, Callers, isKey, isPerson, RIGHTS_OF, type Caller } from '../support/isolation/callers.js';
import { Rows, type Parameters } from '../support/isolation/rows.js';
import { MATRIX_SETTINGS, TABLE, unknownParameters, usual, type Expectation } from '../support/isolation/table.js';
import { operationsOf, type Operation } from '../support/operations.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

/**
 * Every operation of the API's description, tried by everyone who may come: who is let in, who is told what he lacks, and
 * that another clan's rows are answered like rows that do not exist. What is expected stands in
 * test/support/isolation/table.ts; an operation that is neither there nor of a usual kind fails.
 */

let api: TestApi;
let callers: Callers;
let rows: Rows;

beforeAll(async () => {
  api = await startTestApi(MATRIX_SETTINGS);
  callers = await Callers.of(api);
  rows = new Rows(api, callers.clan);
});
afterAll(() => api.close());

// Jest names its tests before it starts anything, so the operations are read when the first of them runs.
const operations = (): Operation[] =>
  // Reading first: what is published later may be read by everybody.
  operationsOf(api).sort((one, other) => Number(other.method === 'get') - Number(one.method === 'get'));

const named = ({ method, path }: Operation): string => `${method} ${path}`;

function expectationOf(operation: Operation): Expectation {
  const expected = { ...usual(operation.method, operation.parameters, operation.path), ...TABLE[named(operation)] };
  if (expected.needs === undefined || expected.body === undefined) {
    throw new Error('has no line in test/support/isolation/table.ts');
  }
  const nowhere = (): Promise<Parameters> => Promise.resolve({});
  const last = operation.parameters.at(-1);
  const at = last === undefined ? nowhere : (of: Rows): Promise<Parameters> => of.make(last);
  const foreign = last === undefined ? null : 404;
  return {
    foreign,
    at,
    foreignAt: at,
    query: () => '',
    except: {},
    table: null,
    type: 'application/json',
    success: 200,
    ...expected,
  } as Expectation;
}

function addressOf({ path }: Operation, at: Parameters, { query }: Expectation): string {
  return `${path.replace(/\{(\w+)\}/g, (_, name: string) => at[name] ?? name)}${query(at)}`;
}

async function each(check: (operation: Operation, expected: Expectation) => Promise<void>): Promise<void> {
  const failures: string[] = [];
  for (const operation of operations()) {
    try {
      await check(operation, expectationOf(operation));
    } catch (error) {
      failures.push(`${named(operation)}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  expect(failures).toEqual([]);
}

function requireAnswer(caller: Caller, { status, body }: Response, wanted: number, code: string | null = null): void {
  if (status === wanted && (code === null || body.code === code)) return;
  const told = `${status} ${String(body?.code ?? '')} ${String(body?.detail ?? '')}`;
  throw new Error(`${caller}: ${told} instead of ${wanted} ${code ?? ''}`);
}

/** What a refusal says, without what differs from request to request. */
function told({ status, body }: Response): string {
  const { code, title, detail, errors = [] } = body as Record<string, unknown> & { errors?: Record<string, unknown>[] };
  const fields = errors.map(({ field, expected }) => ({ field, expected }));
  return JSON.stringify({ status, code, title, detail, fields });
}

const OURS = CALLERS.filter((caller) => caller !== 'rival');

describe('every operation', () => {
  it('stands in the table or is of a usual kind, and the table names no other', async () => {
    await each(() => Promise.resolve());
    const names = new Set(operations().map(named));
    expect(Object.keys(TABLE).filter((name) => !names.has(name))).toEqual([]);
  });

  it('is described with the right that it needs', async () => {
    await each(({ right }, { needs }) => {
      const wanted = needs === 'open' || needs === 'person' ? null : needs;
      if (right !== wanted) throw new Error(`${String(right)} instead of ${String(wanted)}`);
      return Promise.resolve();
    });
  });

  it('lets in who may, tells everybody else what is missing, and shows every row of the clan', async () => {
    await each(async (operation, expected) => {
      const { method } = operation;
      // What is only read can be read by all of them; what is changed is another row for each.
      let shared: Parameters | null = null;
      for (const caller of OURS) {
        // Whoever hands the clan over is its owner no more.
        const once = expected.needs === 'person' || named(operation) === 'put /v1/clan/owner';
        const agent = await callers.agent(caller, once);
        const at: Parameters = shared ?? (await expected.at(rows, agent));
        if (method === 'get') shared = at;
        const body = expected.body === null ? null : await expected.body(rows, at);
        const limit = expected.table === null ? '' : '?limit=200';
        const address = `${addressOf(operation, at, expected)}${limit}`;
        const response = await agent.send({ method, address, body, type: expected.type });
        const refusal = refusalOf(caller, expected);
        if (refusal !== null) requireAnswer(caller, response, refusal.status, refusal.code);
        else {
          requireAnswer(caller, response, expected.success);
          if (expected.table !== null) await requireAllRows(caller, response, expected.table);
        }
      }
    });
  });

  it("answers another clan's ids like ids of nothing, and never with a 403", async () => {
    await each(async (operation, expected) => {
      if (expected.foreign === null) return;
      const named = await expected.foreignAt(rows);
      const answers: Response[] = [];
      for (const at of [named, unknownParameters(Object.keys(named))]) {
        const agent = await callers.agent('rival', expected.needs === 'person');
        const body = expected.body === null ? null : await expected.body(new Rows(api, callers.rival), at);
        const address = addressOf(operation, at, expected);
        answers.push(await agent.send({ method: operation.method, address, body, type: expected.type }));
      }
      const [theirs, nothing] = answers;
      if (theirs === undefined || nothing === undefined) return;
      requireAnswer('rival', theirs, expected.foreign);
      if (told(theirs) !== told(nothing)) throw new Error(`${told(theirs)} differs from ${told(nothing)}`);
    });
  });

  it('shows another clan no row in any list', async () => {
    const fresh = await Callers.of(api);
    // What was published on the way is for everybody.
    await api.database.owner.query('delete from scope_reader');
    await each(async (operation, expected) => {
      if (operation.method !== 'get' || expected.foreign !== null) return;
      if (expected.needs === 'open' || expected.needs === 'person') return;
      const agent = await fresh.agent('rival', false);
      const address = addressOf(operation, {}, expected);
      const response = await agent.send({ method: 'get', address, body: null, type: '' });
      requireAnswer('rival', response, expected.success);
      const text = JSON.stringify(response.body);
      if (text.includes(callers.clan.id)) throw new Error('names the clan');
      if (expected.table !== null) await requireAllRows('rival', response, expected.table, fresh.rival.id);
    });
  });
});

function refusalOf(caller: Caller, { needs, except }: Expectation): { status: number; code: string } | null {
  const [status, code] = except[caller] ?? [];
  if (status !== undefined && code !== undefined) return { status, code };
  if (needs === 'open') return null;
  if (needs === 'person') {
    if (isPerson(caller)) return null;
    return isKey(caller) ? { status: 403, code: 'access.person_needed' } : { status: 401, code: 'access.key_missing' };
  }
  if (caller === 'nobody') return { status: 401, code: 'access.key_missing' };
  if (RIGHTS_OF[caller].length === 0) return { status: 401, code: 'access.key_refused' };
  return RIGHTS_OF[caller].includes(needs) ? null : { status: 403, code: 'access.right_missing' };
}

/** As many items as the table has rows of the clan and of what everybody may read. */
async function requireAllRows(
  caller: Caller,
  response: Response,
  table: string,
  clanId = callers.clan.id,
): Promise<void> {
  const { rows: counted } = await api.database.owner.query<{ count: number }>(
    `select count(*)::int as count from ${table} clan_id = $1`,
    [clanId],
  );
  const items: unknown[] = response.body.items;
  const count = counted[0]?.count ?? 0;
  if (items.length !== Math.min(count, 200)) throw new Error(`${caller}: ${items.length} rows instead of ${count}`);
}
