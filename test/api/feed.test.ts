import { EventSourceClient } from '../support/event-source.js';
import { aClan, aKey, anEvent, type TestClan } from '../support/factories.js';
import { handOf, type Hand, type Made } from '../support/http.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let url: string;
let clan: TestClan;
let our: Hand;
let event: Made;
let streams: EventSourceClient[];

beforeAll(async () => {
  api = await startTestApi();
  await api.app.listen(0, '127.0.0.1');
  url = await api.app.getUrl();
});
afterAll(() => api.close());
beforeEach(async () => {
  streams = [];
  clan = await aClan(api.database.owner);
  our = handOf(api, clan);
  event = await our.made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' });
});
afterEach(() => Promise.all(streams.map((stream) => stream.close())));

/** A match of two entrants of their own. */
async function aMatch(position = 1): Promise<{ match: Made; winner: string }> {
  const entrants: string[] = [];
  for (const side of ['home', 'away']) {
    const player = await our.made('/v1/players', { handle: `${side} ${position}` });
    entrants.push((await our.made(`${event.at}/entrants`, { playerId: player.id })).id);
  }
  const [homeEntrantId, awayEntrantId] = entrants;
  const match = await our.made(`${event.at}/matches`, { round: 1, position, homeEntrantId, awayEntrantId });
  return { match, winner: homeEntrantId ?? '' };
}

async function follow(
  by: Pick<TestClan, 'key'>,
  { query = '', lastEventId }: { query?: string; lastEventId?: string } = {},
): Promise<EventSourceClient> {
  const stream = await EventSourceClient.open(`${url}/v1/feed/stream${query}`, {
    Authorization: `Bearer ${by.key}`,
    ...(lastEventId === undefined ? {} : { 'Last-Event-ID': lastEventId }),
  });
  streams.push(stream);
  return stream;
}

/** Enters a result for the home side, or takes it back. */
const win = (match: Made, winner: string | null) => our.result(match.at, { winner: winner === null ? null : 'home' });

describe('the feed', () => {
  it('tells of a result and of its correction as they are entered', async () => {
    const { match, winner } = await aMatch();
    const stream = await follow(clan);
    expect(await win(match, winner)).toMatchObject({ status: 200 });
    const told = await stream.next();
    expect(told).toMatchObject({
      event: 'bracket.changed',
      data: { kind: 'bracket.changed', eventId: event.id, matchIds: [match.id] },
    });
    expect(await win(match, null)).toMatchObject({ status: 200 });
    const corrected = await stream.next();
    expect(Number(corrected?.id)).toBe(Number(told?.id) + 1);
    const { body } = await our.get(`/v1/feed?after=${told?.id ?? ''}`);
    expect(body).toEqual({ items: [corrected?.data], next: null });
  });

  it('says nothing of what changes no bracket, nor of what was refused', async () => {
    const { match, winner } = await aMatch();
    const stream = await follow(clan);
    await our.patch(match.at, { scheduledAt: '2026-03-01T18:00:00Z' });
    await our.patch(event.at, { name: 'The Pond Cup' });
    expect(await our.result(match.at, { winner: 'home', homeWins: 9 })).toMatchObject({ status: 422 });
    await win(match, winner);
    expect(await stream.next()).toMatchObject({
      id: String(Number(stream.lastEventId)),
      data: { matchIds: [match.id] },
    });
    expect((await our.get('/v1/feed')).body.items).toHaveLength(2);
  });

  it('tells once of all that one transaction changes in an event', async () => {
    const matches = [await aMatch(1), await aMatch(2)];
    const stream = await follow(clan);
    await api.database.transactions.run(clan.credential, 'write', async (db) => {
      for (const { match, winner } of matches) {
        await db.query('update match set winner_entrant_id = $1 where id = $2', [winner, match.id]);
        await db.query('update match set home_wins = 1, away_wins = 0 where id = $1', [match.id]);
      }
    });
    const { match, winner } = await aMatch(3);
    const [first, second] = [await stream.next(), await stream.next()];
    expect(first).toMatchObject({ data: { matchIds: matches.map((one) => one.match.id) } });
    expect(second).toMatchObject({ data: { matchIds: [match.id] } });
    expect(winner).not.toBe('');
  });

  it('loses nothing and tells nothing twice across a reconnect, while many write at once', async () => {
    const matches = [];
    for (let position = 1; position <= 12; position += 1) matches.push(await aMatch(position));
    const first = await follow(clan);
    const before = Number(first.lastEventId);
    const writing = Promise.all(
      matches.map(async ({ match, winner }) => {
        for (const change of [
          { winnerEntrantId: winner, status: 'finished' },
          { winnerEntrantId: null, status: 'ready' },
        ]) {
          expect(await our.patch(match.at, change)).toMatchObject({ status: 200 });
        }
      }),
    );
    const seen: number[] = [];
    for (let count = 0; count < 5; count += 1) seen.push(Number((await first.next())?.id));
    await first.close();
    // Read to the fifth and cut: what was on its way is asked for again, from the last that was taken.
    const lastTaken = String(seen.at(-1));
    await writing;
    const second = await follow(clan, { lastEventId: lastTaken });
    while (seen.length < 2 * matches.length) seen.push(Number((await second.next())?.id));
    expect(seen).toEqual(Array.from({ length: 2 * matches.length }, (_, place) => before + 1 + place));
    expect((await our.get(`/v1/feed?after=${before}&limit=200`)).body.items).toHaveLength(seen.length);
  });

  it('loses nothing for one that left before the first entry', async () => {
    const stream = await follow(clan);
    const { lastEventId } = stream;
    expect(lastEventId).toBe('0');
    await stream.close();
    const { match } = await aMatch();
    const back = await follow(clan, { lastEventId });
    expect(await back.next()).toMatchObject({ id: '1', data: { matchIds: [match.id] } });
    const fromTheStart = await follow(clan, { query: '?after=0' });
    expect(await fromTheStart.next()).toMatchObject({ id: '1' });
  });

  it('goes on when the connection that it listens on is lost', async () => {
    const { match, winner } = await aMatch();
    const stream = await follow(clan);
    const { rowCount } = await api.database.service.query(
      `select pg_terminate_backend(pid) from pg_stat_activity
        where application_name = 'roundbook feed' and datname = current_database()`,
    );
    expect(rowCount).toBe(1);
    await win(match, winner);
    expect(await stream.next()).toMatchObject({ data: { matchIds: [match.id] } });
  });

  it('of another clan can be followed event by event, once published and until it is withdrawn', async () => {
    const other = await aClan(api.database.owner);
    const theirs = handOf(api, other);
    const { match, winner } = await aMatch();
    const query = `?eventId=${event.id}`;
    expect(await theirs.get(`/v1/feed${query}`)).toMatchObject({ status: 404 });
    await our.show(event.at, 'public');
    const stream = await follow(other, { query });
    const own = await follow(other);
    const elsewhere = await anEvent(api.database.owner, clan);
    await our.made(`/v1/events/${elsewhere}/matches`, { round: 1, position: 1 });
    await win(match, winner);
    expect(await stream.next()).toMatchObject({ data: { eventId: event.id, matchIds: [match.id] } });
    expect((await theirs.get(`/v1/feed${query}`)).body.items).toHaveLength(1);
    expect((await theirs.get('/v1/feed')).body.items).toEqual([]);
    await our.show(event.at, 'private');
    await win(match, null);
    expect(await stream.next()).toBeNull();
    expect(own.lastEventId).toBe('0');
  });

  it('ends for a key that was revoked', async () => {
    const { match, winner } = await aMatch();
    const key = await aKey(api.database.owner, clan.id);
    const stream = await follow(key);
    await api.database.owner.query('update api_key set revoked_at = now() where id = $1', [key.keyId]);
    await win(match, winner);
    expect(await stream.next()).toBeNull();
  });

  it('says so when what follows is not all kept any more, or was never there', async () => {
    await aMatch(1);
    await aMatch(2);
    await api.database.owner.query('delete from feed_entry where clan_id = $1 and sequence = 1', [clan.id]);
    const ask = (lastEventId: string) =>
      api.as(clan).get('/v1/feed/stream').set('Accept', 'text/event-stream').set('Last-Event-ID', lastEventId);
    for (const gone of ['1', '77']) {
      expect(await ask(gone)).toMatchObject({ status: 410, body: { code: 'feed.position_gone' } });
    }
    expect(await ask('next')).toMatchObject({ status: 400, body: { errors: [{ field: 'Last-Event-ID' }] } });
    expect(await api.as(clan).get('/v1/feed/stream').set('Accept', 'text/html')).toMatchObject({ status: 406 });
    expect(await our.get('/v1/feed?after=1')).toMatchObject({ status: 410 });
  });

  it('lets go of what is old, but never of the newest thousand', async () => {
    await aMatch(1);
    await api.database.owner.query(
      `insert into feed_entry (clan_id, sequence, scope_id, kind, event_id, match_ids, told_in, told_at)
       select clan_id, n, scope_id, kind, event_id, match_ids, n::text::xid8, now() - interval '8 days'
         from feed_entry, generate_series(2, 1010) n where clan_id = $1 and sequence = 1`,
      [clan.id],
    );
    await api.database.owner.query('update clan set feed_sequence = 1010 where id = $1', [clan.id]);
    await aMatch(2);
    const { rows } = await api.database.owner.query(
      'select min(sequence)::int as oldest, count(*)::int as kept from feed_entry where clan_id = $1',
      [clan.id],
    );
    // The first is new, and the second to the eleventh are neither new nor of the newest thousand.
    expect(rows).toEqual([{ oldest: 1, kept: 1001 }]);
  });
});
