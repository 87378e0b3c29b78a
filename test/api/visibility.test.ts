import { randomUUID } from 'node:crypto';
import { aClan, type TestClan } from '../support/factories.js';
import { handOf, type Hand, type Made } from '../support/http.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let our: Hand;
let friend: TestClan;
let friends: Hand;
let strangers: Hand;

beforeAll(async () => {
  api = await startTestApi();
});
beforeEach(async () => {
  clan = await aClan(api.database.owner);
  our = handOf(api, clan);
  friend = await aClan(api.database.owner);
  friends = handOf(api, friend);
  strangers = handOf(api, await aClan(api.database.owner));
});
afterAll(() => api.close());

interface Archive {
  readonly event: Made;
  readonly game: Made;
  readonly home: Made;
  readonly away: Made;
}

/** An event of one game, with one charted play of the home player's offense. */
async function anArchive(of: Hand = our, home = 'Mossback'): Promise<Archive> {
  const event = await of.made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' });
  const players = [await of.made('/v1/players', { handle: home }), await of.made('/v1/players', { handle: 'Heron' })];
  const [homePlayer, awayPlayer] = players as [Made, Made];
  const facts = { reference: 'pond-1', importance: 'group', eventId: event.id };
  const game = await of.made('/v1/games', { ...facts, homePlayerId: homePlayer.id, awayPlayerId: awayPlayer.id });
  const chart = await of.made('/v1/charts', { gameId: game.id, reference: 'main' });
  await of.made(`${chart.at}/plays`, {
    ...{ offense: 'home', playType: 'scrimmage', down: 1, distance: 10, callFamily: 'run' },
  });
  return { event, game, home: homePlayer, away: awayPlayer };
}

const status = async (hand: Hand, at: string): Promise<number> => (await hand.get(at)).status;
const snapsOf = async (hand: Hand, { at }: Made): Promise<unknown> => {
  const answer = await hand.get(`${at}/profile?side=offense`);
  return answer.status === 200 ? answer.body.snaps : answer.status;
};

describe.each(['event', 'game', 'home'] as const)('the visibility of a record (%s)', (root) => {
  it('is private at first, then shared with named clans, then public, then private again', async () => {
    const archive = await anArchive();
    const { at } = archive[root];
    const start = root === 'game' ? 'event' : 'private';
    expect((await our.get(`${at}/visibility`)).body).toEqual({ visibility: start, clans: [], readBy: 'private' });
    expect([await status(friends, at), await status(strangers, at)]).toEqual([404, 404]);

    const shared = await our.show(at, 'shared', [friend]);
    const clans = [{ clanId: friend.id, mayReshare: false }];
    expect(shared).toMatchObject({ status: 200, body: { visibility: 'shared', clans, readBy: 'shared' } });
    expect([await status(friends, at), await status(strangers, at)]).toEqual([200, 404]);

    expect((await our.show(at, 'public')).body).toEqual({ visibility: 'public', clans: [], readBy: 'public' });
    expect([await status(friends, at), await status(strangers, at)]).toEqual([200, 200]);

    expect((await our.show(at, 'private')).body).toEqual({ visibility: 'private', clans: [], readBy: 'private' });
    expect([await status(friends, at), await status(strangers, at)]).toEqual([404, 404]);
    expect(await status(our, at)).toBe(200);
  });

  it('is for its owner to read and choose, with the tag of what was read, and is recorded', async () => {
    const archive = await anArchive();
    const { at, id } = archive[root];
    await our.show(at, 'public');
    expect(await status(friends, `${at}/visibility`)).toBe(404);
    expect(await friends.show(at, 'private')).toMatchObject({ status: 404 });
    const analyst = await aClan(api.database.owner, { rights: ['read', 'write'] });
    const theirs = await anArchive(handOf(api, analyst));
    expect(await handOf(api, analyst).show(theirs[root].at, 'public')).toMatchObject({ status: 403 });
    const { headers } = await our.get(`${at}/visibility`);
    await our.show(at, 'shared', [friend]);
    const stale = api
      .as(clan)
      .put(`${at}/visibility`)
      .set('If-Match', headers['etag'] ?? '');
    expect(await stale.send({ visibility: 'private' })).toMatchObject({ status: 412 });
    const { rows } = await api.database.owner.query<{ action: string; details: unknown }>(
      'select action, details from audit_entry where clan_id = $1 and subject_id = $2 order by at, id',
      [clan.id, id],
    );
    const kind = root === 'home' ? 'player' : root;
    expect(rows).toMatchObject([
      { action: `${kind}.published` },
      { action: `${kind}.shared`, details: { before: 'public', clans: [friend.id] } },
    ]);
  });
});

describe('a choice that says nothing clear', () => {
  it.each([
    [{ visibility: 'shared' }, 400],
    [{ visibility: 'shared', clans: [] }, 400],
    [{ visibility: 'public', clans: [{ clanId: randomUUID() }] }, 400],
    [{ visibility: 'event' }, 400],
    [{ visibility: 'open' }, 400],
    [{ visibility: 'shared', clans: [{ clanId: 'the owls' }] }, 400],
    [{ visibility: 'shared', clans: [{ clanId: randomUUID() }] }, 422],
  ])('is refused: %j', async (body, expected) => {
    const event = await our.made('/v1/events', { reference: 'pond-cup', name: 'Pond Cup' });
    const { status: answered } = await our.matched(
      `${event.at}/visibility`,
      api.as(clan).put(`${event.at}/visibility`).send(body),
    );
    expect(answered).toBe(expected);
    expect((await our.get(`${event.at}/visibility`)).body.visibility).toBe('private');
  });
});

describe('a game', () => {
  it('is read with its event until it is chosen otherwise, and follows it again when told so', async () => {
    const { event, game } = await anArchive();
    await our.show(event.at, 'public');
    expect((await our.get(`${game.at}/visibility`)).body).toEqual({ visibility: 'event', clans: [], readBy: 'public' });
    await our.show(game.at, 'private');
    expect([await status(strangers, game.at), await status(strangers, event.at)]).toEqual([404, 200]);
    expect((await our.show(game.at, 'event')).body).toMatchObject({ visibility: 'event', readBy: 'public' });
    expect(await status(strangers, game.at)).toBe(200);
  });
});

describe('a profile', () => {
  it('draws on own, shared and public plays, each only as long as the reader may see them', async () => {
    const archive = handOf(api, await aClan(api.database.owner));
    const published = await anArchive(archive, 'Moss Public');
    await archive.show(published.event.at, 'public');
    const shared = await anArchive(friends, 'Moss Friend');
    await friends.patch(shared.home.at, { linkedPlayerId: published.home.id });
    const own = await anArchive(our, 'Moss Own');
    expect(await snapsOf(our, own.home)).toBe(1);
    // A record of one's own that is linked to the public one counts with it.
    expect((await our.patch(own.home.at, { linkedPlayerId: published.home.id })).status).toBe(200);
    expect(await snapsOf(our, own.home)).toBe(2);
    await friends.show(shared.game.at, 'shared', [clan]);
    expect(await snapsOf(our, own.home)).toBe(3);
    expect(await snapsOf(friends, shared.home)).toBe(2);
    expect(await snapsOf(strangers, published.home)).toBe(1);
    await archive.show(published.event.at, 'private');
    expect(await snapsOf(our, own.home)).toBe(2);
    await friends.show(shared.game.at, 'private');
    expect(await snapsOf(our, own.home)).toBe(1);
    expect(await snapsOf(strangers, published.home)).toBe(404);
  });
});

describe('a public archive', () => {
  it('is read by a key of any clan, and by none once withdrawn', async () => {
    const archive = await anArchive();
    await our.show(archive.event.at, 'public');
    const readers = await Promise.all(
      [['read'], ['read', 'write'], ['read', 'write', 'manage']].map((rights) => aClan(api.database.owner, { rights })),
    );
    const { body } = await our.get(archive.game.at);
    const chart = `/v1/charts/${body.charts[0].id}`;
    const addresses = [
      ...[archive.event.at, `${archive.event.at}/bracket`, archive.game.at, `${archive.game.at}/plays`],
      ...[archive.home.at, `${archive.home.at}/plays`, `${archive.home.at}/profile?side=offense`, chart],
      ...[`${chart}/plays`, `${chart}/plays/1`],
    ];
    const answers = async (expected: number): Promise<void> => {
      for (const reader of readers) {
        for (const address of addresses) {
          expect([address, (await handOf(api, reader).get(address)).status]).toEqual([address, expected]);
        }
      }
    };
    await answers(200);
    await our.show(archive.event.at, 'private');
    await answers(404);
    for (const reader of readers) {
      expect((await handOf(api, reader).get('/v1/games')).text).not.toContain(archive.game.id);
    }
  });
});
