import { aClan, type TestClan } from '../support/factories.js';
import { handOf, type Hand, type Made } from '../support/http.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let our: Hand;

beforeAll(async () => {
  api = await startTestApi();
});
beforeEach(async () => {
  clan = await aClan(api.database.owner);
  our = handOf(api, clan);
});
afterAll(() => api.close());

interface Known {
  readonly player: Made;
  readonly other: Made;
  readonly game: Made;
}

/** A player in a bracket and in a charted game, with everything that texts could say about who it is. */
async function aKnownPlayer(): Promise<Known> {
  const once = (path: string, body: object) => api.as(clan).post(path).set('Idempotency-Key', path).send(body);
  const { headers, body } = await once('/v1/players', { handle: 'Quillfeather', aliases: ['quill'] });
  const player = { id: String(body.id), at: headers['location'] ?? '', etag: headers['etag'] ?? '' };
  const other = await our.made('/v1/players', { handle: 'Heron' });
  const event = await our.made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' });
  await our.made(`${event.at}/entrants`, { playerId: player.id, rosterNotes: 'Quillfeather saves changes' });
  const facts = { reference: 'pond-quillfeather-1', importance: 'group', eventId: event.id };
  const game = await our.made('/v1/games', { ...facts, homePlayerId: player.id, awayPlayerId: other.id });
  const chart = await our.made('/v1/charts', { gameId: game.id, reference: 'main' });
  const play = { offense: 'home', playType: 'scrimmage', down: 1, distance: 10, callFamily: 'run' };
  await our.made(`${chart.at}/plays`, { ...play, note: 'QUILL waited long' });
  await our.made('/v1/coaching-points', { about: 'opponent', playerId: player.id, text: 'Quillfeather blinks.' });
  return { player, other, game };
}

/** Tables of the clan that hold a text anywhere. */
async function tablesWith(text: string): Promise<string[]> {
  const { rows } = await api.database.owner.query<{ name: string }>(
    `select c.relname as name from pg_class c join pg_attribute a on a.attrelid = c.oid and a.attname = 'clan_id'
      where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace order by 1`,
  );
  const found: string[] = [];
  for (const { name } of rows) {
    const { rowCount } = await api.database.owner.query(
      `select from ${name} t where clan_id = $1 and to_jsonb(t)::text ilike '%' || $2 || '%' limit 1`,
      [clan.id, text],
    );
    if (rowCount === 1) found.push(name);
  }
  return found;
}

const erase = async ({ at }: Made, plays: string) =>
  our.matched(at, api.as(clan).post(`${at}/erasure`).send({ plays }));

describe('erasing a player', () => {
  it('leaves the plays under a pseudonym and no trace of the name in any table', async () => {
    const { player, game } = await aKnownPlayer();
    expect((await tablesWith('quill')).length).toBeGreaterThan(5);
    const erased = await erase(player, 'keep');
    expect(erased).toMatchObject({ status: 200, body: { playerId: player.id } });
    expect(erased.body.pseudonym).toMatch(/^player [0-9a-f]{8}$/);
    expect(await tablesWith('quill')).toEqual([]);
    expect((await our.get(player.at)).body).toMatchObject({ handle: erased.body.pseudonym, aliases: [] });
    expect((await our.get(`${player.at}/profile?side=offense`)).body.snaps).toBe(1);
    expect((await our.get(game.at)).body).toMatchObject({ home: erased.body.pseudonym });
  });

  it('takes the games along where the owner wants that; the place in the bracket stays', async () => {
    const { player, other, game } = await aKnownPlayer();
    const erased = await erase(player, 'remove');
    expect(erased.status).toBe(200);
    expect(await tablesWith('quill')).toEqual([]);
    expect((await our.get(game.at)).status).toBe(404);
    expect((await our.get(player.at)).body.handle).toBe(erased.body.pseudonym);
    expect((await our.get(other.at)).status).toBe(200);
    const alone = await our.made('/v1/players', { handle: 'Quillfeather' });
    expect((await erase(alone, 'remove')).body).toEqual({ playerId: alone.id, pseudonym: null });
    expect((await our.get(alone.at)).status).toBe(404);
  });

  it("is the owner's of the record alone, says how the plays go, and is in the audit without a name", async () => {
    const { player } = await aKnownPlayer();
    const analyst = await aClan(api.database.owner, { rights: ['read', 'write'] });
    const theirs = await handOf(api, analyst).made('/v1/players', { handle: 'Heron' });
    const sent = (of: TestClan, at: string, body: object) =>
      api.as(of).post(`${at}/erasure`).set('If-Match', '*').send(body);
    expect((await sent(analyst, theirs.at, { plays: 'keep' })).status).toBe(403);
    const stranger = await aClan(api.database.owner);
    expect((await sent(stranger, player.at, { plays: 'keep' })).status).toBe(404);
    expect((await sent(clan, player.at, {})).status).toBe(400);
    await erase(player, 'keep');
    const { body } = await our.get(`/v1/audit?subjectId=${player.id}`);
    expect(body.items[0]).toMatchObject({ action: 'player.erased', details: { plays: 'keep' }, actorId: clan.keyId });
  });
});

describe('the export of a player', () => {
  it('has everything that the clan keeps, and is recorded', async () => {
    const { player } = await aKnownPlayer();
    const { status, body } = await our.get(`${player.at}/export`);
    expect(status).toBe(200);
    expect(body).toMatchObject({
      player: { handle: 'Quillfeather' },
      aliases: [{ alias: 'quill' }],
      entrants: [{ roster_notes: 'Quillfeather saves changes' }],
      games: [{ reference: 'pond-quillfeather-1' }],
      plays: [{ note: 'QUILL waited long' }],
      coachingPoints: [{ text: 'Quillfeather blinks.' }],
    });
    expect(JSON.stringify(body)).not.toContain('clan_id');
    const { body: audit } = await our.get('/v1/audit?action=player.exported');
    expect(audit.items).toMatchObject([{ subjectId: player.id, actorId: clan.keyId }]);
    const stranger = handOf(api, await aClan(api.database.owner));
    expect((await stranger.get(`${player.at}/export`)).status).toBe(404);
  });
});

describe('the audit', () => {
  it('names who did what, the latest first, a page at a time, for owners alone', async () => {
    const { player } = await aKnownPlayer();
    await our.patch(player.at, { handle: 'Quill Feather', aliases: null });
    await our.show(player.at, 'public');
    const { body } = await our.get('/v1/audit?limit=1');
    expect(body.items).toMatchObject([{ action: 'player.published', subjectKind: 'player', subjectId: player.id }]);
    const second = await our.get(`/v1/audit?limit=1&after=${String(body.next)}`);
    expect(second.body.items).toMatchObject([
      { action: 'player.changed', details: { fields: ['aliases', 'handle'] }, actorId: clan.keyId },
    ]);
    const analyst = await aClan(api.database.owner, { rights: ['read', 'write'] });
    expect((await handOf(api, analyst).get('/v1/audit')).status).toBe(403);
    const { rows } = await api.database.transactions.run(analyst.credential, 'read', async (db) => ({
      rows: await db.query('select id from audit_entry'),
    }));
    expect(rows).toEqual([]);
  });
});
