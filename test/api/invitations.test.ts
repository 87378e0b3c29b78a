import { aClan, aMember, type TestClan } from '../support/factories.js';
import { CHEAP_PASSPHRASES, PASSPHRASE, personOf, signedIn, type Person } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let owner: Person;
let ownerId: string;

beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES });
});
afterAll(() => api.close());
beforeEach(async () => {
  clan = await aClan(api.database.owner);
  const member = await aMember(api.database.owner, clan.id, 'owner');
  owner = await signedIn(api, member);
  ownerId = member.memberId;
});

const REFUSED = { status: 404, body: { code: 'invitation.refused' } };
let count = 0;
const newcomer = (invitation: string): { signInName: string; passphrase: string; name: string; invitation: string } => {
  count += 1;
  return { signInName: `newcomer-${count}`, passphrase: PASSPHRASE, name: 'Sorrel', invitation };
};

async function invite(input: object = {}): Promise<string> {
  const response = await owner.post('/v1/invitations', { role: 'analyst', ...input });
  expect(response).toMatchObject({ status: 201 });
  return /\/invitation\/(rbi_[A-Za-z0-9_-]{43})$/.exec(response.body.link as string)?.[1] ?? '';
}

describe('an invitation', () => {
  it('says where it leads, and makes a member who is signed in', async () => {
    const invitation = await invite({ note: 'for Sorrel' });
    expect(await api.anonymous.post('/v1/invitation-preview').send({ invitation })).toMatchObject({
      status: 200,
      body: { clanName: clan.name, role: 'analyst' },
    });
    const sorrel = personOf(api);
    expect(await sorrel.post('/v1/people', newcomer(invitation))).toMatchObject({
      status: 201,
      body: { clanId: clan.id, rights: ['read', 'write'], clans: [{ memberName: 'Sorrel', role: 'analyst' }] },
    });
    expect(await sorrel.post('/v1/players', { handle: 'Mossback' })).toMatchObject({ status: 201 });
    expect((await owner.get('/v1/invitations')).body.items).toMatchObject([
      { note: 'for Sorrel', acceptedAt: expect.stringMatching(/Z$/) },
    ]);
  });

  it('works once, also for two who come at the same moment', async () => {
    const invitation = await invite();
    const statuses = await Promise.all(
      [1, 2, 3].map(async () => (await personOf(api).post('/v1/people', newcomer(invitation))).status),
    );
    expect(statuses.sort()).toEqual([201, 404, 404]);
    expect(await personOf(api).post('/v1/people', newcomer(invitation))).toMatchObject(REFUSED);
  });

  it('is refused in the same words when it is unknown, expired, withdrawn, or made by somebody who may not invite now', async () => {
    const { owner: sql } = api.database;
    const expired = await invite();
    await sql.query(`update invitation set expires_at = now() - interval '1 second'`);
    const withdrawn = await invite();
    const items: { id: string }[] = (await owner.get('/v1/invitations')).body.items;
    await owner.delete(`/v1/invitations/${items.at(-1)?.id ?? ''}`);
    const orphaned = await invite();
    await sql.query(`update api_key set role = 'analyst', rights = array['read', 'write'] where id = $1`, [ownerId]);
    for (const invitation of [`rbi_${'A'.repeat(43)}`, expired, withdrawn, orphaned]) {
      expect(await api.anonymous.post('/v1/invitation-preview').send({ invitation })).toMatchObject(REFUSED);
      expect(await personOf(api).post('/v1/people', newcomer(invitation))).toMatchObject(REFUSED);
    }
    expect(
      (
        await sql.query(`select from app.person where sign_in_name is not null and id not in
      (select person_id from api_key where person_id is not null)`)
      ).rowCount,
    ).toBe(0);
  });

  it('stays open when the name is taken', async () => {
    const [first, second] = [await invite(), await invite()];
    const person = newcomer(first);
    await personOf(api).post('/v1/people', person);
    expect(await personOf(api).post('/v1/people', { ...person, invitation: second })).toMatchObject({
      status: 409,
      body: { code: 'resource.taken', errors: [{ field: 'signInName' }] },
    });
    expect(await personOf(api).post('/v1/people', newcomer(second))).toMatchObject({ status: 201 });
  });

  it('brings a person who has signed in into a further clan, under another token', async () => {
    const elsewhere = await aClan(api.database.owner);
    const sorrel = await signedIn(api, await aMember(api.database.owner, elsewhere.id, 'owner'));
    const before = sorrel.copy();
    expect(await sorrel.post('/v1/memberships', { invitation: await invite(), name: 'Sorrel' })).toMatchObject({
      status: 201,
      body: { clanId: clan.id, clans: [{ role: 'owner' }, { role: 'analyst' }] },
    });
    expect(await before.get('/v1/session')).toMatchObject({ status: 401 });
    const again = await invite();
    const already = await sorrel.post('/v1/memberships', { invitation: again, name: 'Sorrel' });
    expect(already).toMatchObject({ status: 409, body: { code: 'member.already' } });
    expect(await personOf(api).post('/v1/people', newcomer(again))).toMatchObject({ status: 201 });
  });

  it('makes who left the same member again', async () => {
    const sorrel = personOf(api);
    const joined = await sorrel.post('/v1/people', newcomer(await invite()));
    await sorrel.delete(`/v1/memberships/${clan.id}`);
    const invitation = await invite({ role: 'reader' });
    expect(await sorrel.post('/v1/memberships', { invitation, name: 'Sorrel again' })).toMatchObject({
      status: 201,
      body: { memberId: joined.body.memberId, rights: ['read'], clans: [{ memberName: 'Sorrel again' }] },
    });
  });

  it('is shown once: not when the same request comes again, nor in a list, nor in the database', async () => {
    const send = () =>
      api.as(clan).post('/v1/invitations').set('Idempotency-Key', 'once').send({ role: 'reader', days: 1 });
    const [first, second] = [await send(), await send()];
    expect(second.body).toEqual({ ...first.body, link: null });
    const token = (first.body.link as string).split('/').at(-1) ?? '';
    expect(JSON.stringify((await owner.get('/v1/invitations')).body)).not.toContain(token);
    const { rows } = await api.database.owner.query(
      'select i::text from invitation i union all select k::text from idempotency_key k',
    );
    expect(JSON.stringify(rows)).not.toContain(token);
  });

  it('is for an owner to make and to see', async () => {
    const analyst = await signedIn(api, await aMember(api.database.owner, clan.id, 'analyst'));
    expect(await analyst.post('/v1/invitations', { role: 'owner' })).toMatchObject({ status: 403 });
    expect(await analyst.get('/v1/invitations')).toMatchObject({ status: 403 });
  });
});
