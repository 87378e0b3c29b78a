import { as } from '../support/as-clan.js';
import { aClan, aScope, type TestClan } from '../support/factories.js';
import { handOf, type Hand } from '../support/http.js';
import { aGameRecord, aPlayRecord, TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let archive: TestClan;
let clan: TestClan;
let our: Hand;
let others: Hand;
let eventAt: string;
let gameAt: string;
let reportAt: string;

beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());

/** A report on Mossback from a game of an archive that was shared with the clan which makes the report. */
beforeEach(async () => {
  archive = await aClan(api.database.owner);
  clan = await aClan(api.database.owner);
  [our, others] = [handOf(api, clan), handOf(api, archive)];
  const plays = Array.from({ length: 12 }, (_, at) =>
    aPlayRecord({
      ...{ order: at + 1, down: 1, distance: 10, yardsToGoal: 60, snapSecond: 30 * (at + 1) },
      ...{ callFamily: 'run', snapResult: 'rushed', yardsGained: 5 },
    }),
  );
  await loadRecords(api, archive, [...TWO_PLAYERS, aGameRecord(), ...plays]);
  const idAt = async (hand: Hand, list: string): Promise<string> => String((await hand.get(list)).body.items[0].id);
  const eventId = await idAt(others, '/v1/events');
  eventAt = `/v1/events/${eventId}`;
  gameAt = `/v1/games/${await idAt(others, '/v1/games')}`;
  await others.show(eventAt, 'shared', [clan]);
  const { body } = await others.get(gameAt);
  const made = await our.made('/v1/round-reports', { eventId, opponentId: body.awayPlayerId });
  reportAt = made.at;
});

async function aLink(days?: number): Promise<{ path: string; at: string }> {
  const made = await our.post(`${reportAt}/share-links`, days === undefined ? {} : { days });
  expect(made).toMatchObject({ status: 201, body: { prefix: expect.stringMatching(/^rbl_/), revokedAt: null } });
  return { path: new URL(String(made.body.link)).pathname, at: made.headers['location'] ?? '' };
}
const open = (path: string, type = 'application/json') => api.anonymous.get(path).set('Accept', type);

describe('a link to a report', () => {
  it('opens that report without a key, in every form, and tells nobody to keep it', async () => {
    const { path } = await aLink();
    const { body } = await our.get(reportAt);
    const opened = await open(path);
    expect(opened).toMatchObject({ status: 200, body: { id: body.id, sample: body.sample } });
    expect(opened.headers).toMatchObject({ 'cache-control': 'no-store', 'x-robots-tag': 'noindex, nofollow' });
    expect(opened.headers['referrer-policy']).toBe('no-referrer');
    for (const type of ['text/markdown', 'text/plain', 'text/html', 'text/csv']) {
      expect((await open(path, type)).status).toBe(200);
    }
    expect((await api.anonymous.get(reportAt)).status).toBe(401);
    const token = path.split('/').at(-1) ?? '';
    expect((await api.anonymous.get('/v1/events').set('Authorization', `Bearer ${token}`)).status).toBe(401);
  });

  it('works until it is revoked, and no longer than its days', async () => {
    const { path, at } = await aLink(1);
    expect((await our.delete(at)).status).toBe(204);
    expect(await open(path)).toMatchObject({ status: 404, body: { code: 'link.refused' } });
    expect((await our.get(at)).body.revokedAt).not.toBeNull();
    const second = await aLink(1);
    await api.database.owner.query(
      `update share_link set created_at = now() - interval '2 days', expires_at = now() - interval '1 second'
        where clan_id = $1`,
      [clan.id],
    );
    expect((await open(second.path)).status).toBe(404);
    const forged = `/v1/linked-reports/rbl_${'x'.repeat(43)}`;
    expect([(await open(forged)).status, (await open('/v1/linked-reports/mine')).status]).toEqual([404, 404]);
    expect((await our.post(`${reportAt}/share-links`, { days: 91 })).status).toBe(400);
  });

  it('goes with its report, is made for own reports only, and is kept as a digest', async () => {
    const { path } = await aLink();
    expect((await others.post(`${reportAt}/share-links`, {})).status).toBe(404);
    const { rows } = await api.database.owner.query<{ row: string }>(
      `select to_jsonb(l)::text || coalesce((select string_agg(response::text, '') from idempotency_key), '') as row
         from share_link l where clan_id = $1`,
      [clan.id],
    );
    expect(rows[0]?.row).not.toContain(path.split('/').at(-1));
    await our.delete(reportAt);
    expect((await open(path)).status).toBe(404);
  });

  it('shows what others shared only where they allow to show it on; the figures stay as they were frozen', async () => {
    const { path } = await aLink();
    const opponent = async (address: Promise<{ body: { opponent: string | null } }>) => (await address).body.opponent;
    expect(await opponent(our.get(reportAt).then())).toBe('Mossback');
    expect(await opponent(open(path).then())).toBeNull();
    expect((await open(path, 'text/html')).text).not.toContain('video.example');
    const reshared = { visibility: 'shared', clans: [{ clanId: clan.id, mayReshare: true }] };
    await others.matched(`${eventAt}/visibility`, api.as(archive).put(`${eventAt}/visibility`).send(reshared));
    expect(await opponent(open(path).then())).toBe('Mossback');
    expect((await open(path, 'text/html')).text).toContain('video.example');
  });

  it('and the report itself withhold evidence that was withdrawn', async () => {
    const { path } = await aLink();
    await others.show(eventAt, 'public');
    const before = await open(path);
    expect(before.body.opponent).toBe('Mossback');
    await others.show(eventAt, 'private');
    for (const { body } of [await our.get(reportAt), await open(path)]) {
      expect(body).toMatchObject({ opponent: null, sample: before.body.sample });
    }
    for (const { text } of [
      await api.as(clan).get(reportAt).set('Accept', 'text/html'),
      await open(path, 'text/html'),
    ]) {
      expect(text).not.toContain('Mossback');
      expect(text).not.toContain('video.example');
    }
  });
});

describe('inside a link, whatever SQL is run as the service', () => {
  it("no clan is entered, nothing is written, and nobody's own rows are read", async () => {
    const { path } = await aLink();
    const person = await aScope(api.database.owner, clan, 'person');
    await api.database.owner.query(
      `insert into player (clan_id, id, scope_id, handle, normalised_handle) values ($1, gen_random_uuid(), $2, 'P', 'p')`,
      [clan.id, person],
    );
    await api.database.owner.query(`insert into idempotency_key (clan_id, key, request_hash) values ($1, 'once', '')`, [
      clan.id,
    ]);
    const { service } = api.database;
    const client = await service.connect();
    const tried = async (sql: string): Promise<unknown> => {
      await client.query('begin');
      try {
        await client.query('select app.enter_link(sha256($1))', [path.split('/').at(-1)]);
        return (await client.query(sql)).rows;
      } catch (error) {
        return error instanceof Error && 'code' in error ? error.code : error;
      } finally {
        await client.query('rollback');
      }
    };
    try {
      expect(await tried('select count(*)::int as n from round_report')).toEqual([{ n: 1 }]);
      expect(await tried(`select count(*)::int as n from player where handle = 'P'`)).toEqual([{ n: 0 }]);
      for (const table of ['audit_entry', 'api_key', 'idempotency_key', 'share_link', 'clan']) {
        const columns = table === 'api_key' || table === 'share_link' || table === 'clan' ? 'id' : '*';
        expect([table, await tried(`select ${columns} from ${table}`)]).toEqual([table, 'RB001']);
      }
      expect(await tried('delete from round_report')).toBe('25006');
      // The seal of a link is worthless as an entered clan.
      const copied = `select set_config('roundbook.clan', current_setting('roundbook.link'), true), app.clan()`;
      expect(await tried(copied)).toBe('RB003');
      // One statement after the other: a plan may look at the scopes before the setting is forged.
      const forged = `select set_config('roundbook.link', translate(current_setting('roundbook.link'), '01', '10'), true);
                      select app.scopes()`;
      expect(await tried(forged)).toBe('RB003');
    } finally {
      client.release();
    }
    // The connection is handed on without anything of the link left in it.
    expect(await as(api.database, clan, 'select app.clan() as clan')).toEqual([{ clan: clan.id }]);
  });
});
