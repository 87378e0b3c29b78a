import type { Response } from 'supertest';
import { openApiDocument } from '#api/documents.js';
import { EXAMPLE_IDS } from '#api/common/examples.js';
import { as, PUBLISH } from '../support/as-clan.js';
import { aClan, aKey, aMember, aPlayer, type TestClan } from '../support/factories.js';
import { newIds, populate, type Ids } from '../support/populate.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

/**
 * Every operation of the description that makes or changes something, tried with the very examples that stand there: an
 * operation that is added is tried without a line here, unless its example needs more than one clan's rows.
 */

interface Parameter {
  readonly name: string;
  readonly in: string;
  readonly required?: boolean;
}
interface Operation {
  readonly method: string;
  readonly path: string;
  readonly parameters: readonly Parameter[];
  readonly statuses: readonly string[];
  readonly content: Readonly<Record<string, { readonly example?: unknown }>>;
}

interface DescribedOperation {
  readonly parameters?: readonly Parameter[];
  readonly responses: object;
  readonly requestBody?: Pick<Operation, 'content'>;
  readonly security?: readonly object[];
}

/** They answer what is sent to them and keep nothing, or act on what can never be two things. */
const NOTHING_TO_MATCH: Readonly<Record<string, string>> = {
  'post /v1/sheet-mappings/suggestions': 'computes only',
  'post /v1/players/{playerId}/next-call': 'computes only',
  'put /v1/clan/owner': 'it names who is to own it, and whoever asks is no owner afterwards',
  'delete /v1/round-reports/{reportId}': 'a frozen report has one version',
};

/** Secrets, which the second answer leaves out: what is kept of the first must not hold them. */
const SHOWN_ONCE: Readonly<Record<string, object>> = {
  'post /v1/invitations': { link: null },
  'post /v1/keys': { key: null },
  'post /v1/webhooks': { secret: null },
  'post /v1/round-reports/{reportId}/share-links': { link: null },
};

const NEWCOMER = '01890a5d-ac96-774b-bcce-b302099a8070';

/** What an example cannot say beside rows that are there already. Put over the example. */
const BODIES: Readonly<Record<string, object>> = {
  'post /v1/events/{eventId}/entrants': { playerId: NEWCOMER },
  'post /v1/events/{eventId}/matches': { round: 2 },
  'post /v1/charts': { reference: 'second' },
  'post /v1/match-up-overrides': { opponentId: NEWCOMER },
  'post /v1/sheet-mappings': { name: 'another sheet' },
  'post /v1/webhooks': { enabled: false },
};
/** Said instead of the example, which shows either of two ways. */
const INSTEAD: Readonly<Record<string, object>> = {
  'post /v1/events/{eventId}/bracket': { structure: 'single elimination' },
};
const FILES: Readonly<Record<string, string>> = {
  'post /v1/imports': '{"record":"player","handle":"Brass Heron"}\n',
  'post /v1/games/{gameId}/charts': 'order,offense,playType,down,distance\n1,HeronGate,scrimmage,1,10\n',
};
const QUERIES: Readonly<Record<string, string>> = { 'post /v1/games/{gameId}/charts': '?chart=second' };

let api: TestApi;
let operations: readonly Operation[];
let ids: Ids;

beforeAll(async () => {
  api = await startTestApi();
  await api.database.owner.query('select app.create_clan($1, $2)', [EXAMPLE_IDS.clan, 'The clan of the examples']);
  ids = {
    ...{ ...newIds(), home: EXAMPLE_IDS.player, away: EXAMPLE_IDS.opponent, event: EXAMPLE_IDS.event },
    ...{ homeEntrant: EXAMPLE_IDS.entrant, match: EXAMPLE_IDS.match, game: EXAMPLE_IDS.game },
    ...{ contest: EXAMPLE_IDS.contest, chart: EXAMPLE_IDS.chart, menuCall: EXAMPLE_IDS.menuCall },
  };
  const { paths } = JSON.parse(JSON.stringify(openApiDocument(api.app))) as {
    paths: Record<string, Record<string, DescribedOperation>>;
  };
  operations = Object.entries(paths).flatMap(([path, item]) =>
    Object.entries(item)
      .filter(inClan)
      .map(([method, operation]) => ({
        method,
        path,
        parameters: operation.parameters ?? [],
        statuses: Object.keys(operation.responses),
        content: operation.requestBody?.content ?? {},
      })),
  );
});
afterAll(() => api.close());

/** Sessions and invitations stand beside the clans: each can be used once, so nothing there can happen twice. */
function inClan([method, { security = [] }]: [string, DescribedOperation]): boolean {
  return method === 'get' || security.some((scheme) => 'bearer' in scheme);
}

const named = ({ method, path }: Operation): string => `${method} ${path}`;
const creating = (): Operation[] =>
  operations.filter(({ method, statuses }) => method === 'post' && statuses.includes('201'));
const changing = (): Operation[] =>
  operations.filter(
    (operation) =>
      operation.method !== 'get' && !creating().includes(operation) && !(named(operation) in NOTHING_TO_MATCH),
  );

/** A clan of its own for every operation, all with the same ids, as keys allow that. */
async function scene({ path }: Operation): Promise<{ clan: TestClan; address: string; resource: string }> {
  const { owner } = api.database;
  const clan = await aClan(owner);
  let filled = clan;
  if (path.endsWith('/adoption')) {
    filled = await aClan(owner);
    await populateWithoutPack(filled, { ...newIds(), event: EXAMPLE_IDS.event, home: EXAMPLE_IDS.player });
    await as(api.database, filled, PUBLISH, ['event', EXAMPLE_IDS.event]);
  } else {
    await populateWithoutPack(clan, ids);
    await aPlayer(owner, clan, { id: NEWCOMER });
    // A bracket is made where there are no matches yet.
    if (path.endsWith('/bracket')) await owner.query('delete from match where clan_id = $1', [clan.id]);
    await owner.query(`update event set grade_scale = '{low,fair,high}' where clan_id = $1`, [clan.id]);
  }
  const { rows } = await owner.query<{ term: number; mapping: string; invitation: string; link: string }>(
    `select (select id from term where clan_id = $1) as term, (select id from sheet_mapping where clan_id = $1) as mapping,
            (select id from invitation where clan_id = $1) as invitation,
            (select id from share_link where clan_id = $1) as link`,
    [filled.id],
  );
  const parameters: Record<string, string> = {
    ...{ playerId: ids.home, eventId: ids.event, entrantId: ids.awayEntrant, matchId: ids.match, gameId: ids.game },
    ...{ chartId: ids.chart, playNumber: '1', menuCallId: ids.menuCall, ownCallId: ids.ownCall },
    ...{ coachingPointId: ids.coachingPoint, reportId: ids.report },
    ...{ termId: String(rows[0]?.term), mappingId: rows[0]?.mapping ?? '' },
    overrideId: ids.override,
    ...{ webhookId: ids.webhook, deliveryId: ids.delivery },
    linkId: rows[0]?.link ?? '',
    ...{ invitationId: rows[0]?.invitation ?? '', keyId: (await aKey(owner, clan.id)).keyId },
    ...{ memberId: (await aMember(owner, clan.id, 'reader')).memberId },
  };
  const address = path.replace(/\{(\w+)\}/g, (_, name: string) => parameters[name] ?? name);
  return { clan, address, resource: address.replace(/\/(merger|erasure|secret|repetition|result)$/, '') };
}

/** Its packed copy is none, which no figure must be computed from. */
async function populateWithoutPack(clan: TestClan, of: Ids): Promise<void> {
  await populate(api.database.owner, clan, of);
  await api.database.owner.query(`update chart set kind = 'own call log' where clan_id = $1`, [clan.id]);
  await api.database.owner.query(`delete from chart_pack where clan_id = $1`, [clan.id]);
  // So that nothing is sent.
  await api.database.owner.query(
    `update webhook set ended_at = now(), ended_because = 'turned off' where clan_id = $1`,
    [clan.id],
  );
}

function send(
  operation: Operation,
  clan: TestClan,
  address: string,
  headers: object,
  body?: object,
): Promise<Response> {
  const [type, media] = Object.entries(operation.content)[0] ?? ['application/json', {}];
  const file = FILES[named(operation)];
  const sent =
    file ??
    JSON.stringify(body ?? INSTEAD[named(operation)] ?? { ...Object(media.example), ...BODIES[named(operation)] });
  const verb = operation.method as 'post' | 'put' | 'patch' | 'delete';
  const request = api
    .as(clan)
    [verb](`${address}${QUERIES[named(operation)] ?? ''}`)
    .set({ ...headers });
  const format = file?.startsWith('{') === true ? 'application/x-ndjson' : type;
  return request.set('Content-Type', format).send(sent).then();
}

async function each(chosen: readonly Operation[], check: (operation: Operation) => Promise<void>): Promise<void> {
  expect(chosen.length).toBeGreaterThan(10);
  const failures: string[] = [];
  for (const operation of chosen) {
    await check(operation).catch((error: unknown) => failures.push(`${named(operation)}: ${String(error)}`));
  }
  expect(failures).toEqual([]);
}

function requireEqual(found: unknown, expected: unknown, what: string): void {
  const [one, other] = [JSON.stringify(found), JSON.stringify(expected)];
  if (one !== other) throw new Error(`${what}: ${one} instead of ${other}`);
}

describe('every creation', () => {
  it('says that it takes an Idempotency-Key', () => {
    const without = creating().filter(({ parameters }) => !parameters.some(({ name }) => name === 'Idempotency-Key'));
    expect(without.map(named)).toEqual([]);
  });

  it('sent twice with one key is done once, and the key stands for that request alone', async () => {
    await each(creating(), async (operation) => {
      const { clan, address } = await scene(operation);
      const headers = { 'Idempotency-Key': 'the same again' };
      const first = await send(operation, clan, address, headers);
      requireEqual([first.status, first.status === 201 ? null : first.body], [201, null], 'first');
      const rows = await rowsOf(clan);
      const second = await send(operation, clan, address, headers);
      const expected = { ...first.body, ...SHOWN_ONCE[named(operation)] };
      requireEqual([second.status, second.body], [201, expected], 'second');
      requireEqual(second.headers['location'], first.headers['location'], 'location');
      requireEqual(await rowsOf(clan), rows, 'rows');
      // Another address is another request, even where the body is the same.
      const third = await send(operation, clan, `${address}/`, headers);
      requireEqual([third.status, third.body.code], [422, 'request.key_reused'], 'another request');
    });
  });

  it('refuses a key that is too long to be kept', async () => {
    await each(creating(), async (operation) => {
      const { clan, address } = await scene(operation);
      const { status } = await send(operation, clan, address, { 'Idempotency-Key': 'x'.repeat(256) });
      requireEqual(status, 400, 'status');
    });
  });

  /** How many rows the clan has in every table. */
  async function rowsOf(clan: TestClan): Promise<unknown> {
    const { rows } = await api.database.owner.query<{ table: string }>(
      `select c.relname as table from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attname = 'clan_id'
        where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace order by 1`,
    );
    const counts = rows.map(({ table }) => `(select count(*) from ${table} where clan_id = $1)`);
    return (await api.database.owner.query(`select array[${counts.join(', ')}] as counts`, [clan.id])).rows[0];
  }
});

describe('every change', () => {
  it('says that it needs an If-Match', () => {
    const without = changing().filter(
      ({ parameters }) => !parameters.some(({ name, required }) => name === 'If-Match' && required === true),
    );
    expect(without.map(named)).toEqual([]);
  });

  it('is refused without the tag of what it was made from, and with the tag of what it was before', async () => {
    await each(changing(), async (operation) => {
      const { clan, address, resource } = await scene(operation);
      const body = operation.method === 'patch' ? {} : undefined;
      requireEqual((await send(operation, clan, address, {}, body)).status, 428, 'without');
      const stale = await send(operation, clan, address, { 'If-Match': '"stale"' }, body);
      requireEqual([stale.status, stale.body.code], [412, 'request.precondition_failed'], 'stale');
      const { headers } = await api.as(clan).get(resource);
      const current = await send(operation, clan, address, { 'If-Match': headers['etag'] ?? '' }, body);
      // What is still in use stays, and a term needs another to count as; but the tag was right.
      if (![200, 204, 404, 409].includes(current.status)) throw new Error(`current: ${JSON.stringify(current.body)}`);
    });
  });
});
