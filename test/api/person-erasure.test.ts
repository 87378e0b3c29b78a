import { aClan, aMember, aPlayer } from '../support/factories.js';
import { CHEAP_PASSPHRASES, PASSPHRASE, personOf, signedIn, type Person } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let owner: Person;
let clanId: string;

beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES });
  owner = personOf(api);
  await owner.signUp('sorrel');
  clanId = (await owner.get('/v1/session')).body.clanId as string;
});
afterAll(() => api.close());

/** Somebody who came by an invitation that names the person. */
async function joined(signInName: string, role = 'analyst'): Promise<Person> {
  const { body } = await owner.post('/v1/invitations', { role, note: `for ${signInName}` });
  const invitation = (body as { link: string }).link.split('/').at(-1);
  const person = personOf(api);
  const input = { invitation, signInName, passphrase: PASSPHRASE, name: signInName };
  const { status, body: session } = await person.post('/v1/people', input);
  expect({ status, session }).toMatchObject({ status: 201 });
  return person;
}

/** Every column of text anywhere in the database that has the word. */
async function placesOf(word: string): Promise<string[]> {
  const { rows: tables } = await api.database.owner.query<{ name: string }>(
    `select format('%I.%I', n.nspname, c.relname) as name from pg_class c join pg_namespace n on n.oid = c.relnamespace
      where n.nspname in ('app', 'public') and c.relkind = 'r'`,
  );
  const found: string[] = [];
  for (const { name } of tables) {
    const { rows } = await api.database.owner.query(
      `select from ${name} t where t::text ilike '%' || $1 || '%' limit 1`,
      [word],
    );
    if (rows.length > 0) found.push(name);
  }
  return found;
}

it('takes the name out of every table, and leaves what was written under a pseudonym', async () => {
  const marlow = await joined('Quillfeather');
  const { memberId } = (await marlow.get('/v1/session')).body as { memberId: string };
  const clan = await aClan(api.database.owner);
  await aMember(api.database.owner, clan.id, 'owner');
  const { rows } = await api.database.owner.query<{ id: string; scope: number }>(
    `select s.clan_id as id, s.id as scope from scope s where s.clan_id = $1 and s.kind = 'private'`,
    [clanId],
  );
  const playerId = await aPlayer(api.database.owner, { ...clan, id: clanId, privateScopeId: rows[0]?.scope ?? 0 });
  const point = { about: 'opponent', playerId, text: 'Goes for it on fourth and short.' };
  const shown = (await marlow.post('/v1/coaching-points', point)).body as { id: string };
  const own = (await marlow.post('/v1/coaching-points', { ...point, visibleTo: 'me' })).body as { id: string };
  const once = marlow.raw('post', '/v1/keys', marlow.csrfToken).set('Idempotency-Key', 'a key');
  const { body: key } = await once.send({ name: "Quillfeather's bot", scopes: ['read'] });
  expect(await placesOf('quillfeather')).toEqual(
    expect.arrayContaining(['app.person', 'public.api_key', 'public.invitation', 'public.idempotency_key']),
  );

  expect(await marlow.post('/v1/person/erasure', { passphrase: 'not the one that it is' })).toMatchObject({
    status: 401,
  });
  expect(await marlow.post('/v1/person/erasure', {})).toMatchObject({ status: 401 });
  expect(await placesOf('quillfeather')).not.toEqual([]);
  const copy = marlow.copy();
  const erased = await marlow.post('/v1/person/erasure', { passphrase: PASSPHRASE });
  expect(erased).toMatchObject({ status: 204 });
  expect(erased.get('Set-Cookie')?.[0]).toMatch(/^roundbook=;/);

  expect(await placesOf('quillfeather')).toEqual([]);
  expect(await copy.get('/v1/session')).toMatchObject({ status: 401 });
  expect(await personOf(api).signIn('Quillfeather')).toMatchObject({ status: 401 });
  expect(await api.as({ key: (key as { key: string }).key }).get('/v1/players')).toMatchObject({ status: 401 });
  expect(await owner.get(`/v1/coaching-points/${own.id}`)).toMatchObject({ status: 404 });
  expect(await owner.get(`/v1/coaching-points/${shown.id}`)).toMatchObject({ status: 200, body: { text: point.text } });
  const { rows: left } = await api.database.owner.query(
    'select name, person_id, revoked_at from api_key where id = $1',
    [memberId],
  );
  expect(left).toMatchObject([{ name: expect.stringMatching(/^Former member [0-9a-f]{12}$/), person_id: null }]);
  const { items } = (await owner.get('/v1/audit')).body as { items: { action: string; subjectId: string }[] };
  expect(items).toContainEqual(expect.objectContaining({ action: 'person.erased', subjectId: memberId }));
  // The name is free again.
  await joined('Quillfeather');
});

it('is refused as long as a clan would be left without an owner, and then nothing is gone', async () => {
  const refused = await owner.post('/v1/person/erasure', { passphrase: PASSPHRASE });
  expect(refused).toMatchObject({ status: 409, body: { code: 'clan.owner_needed' } });
  expect(await owner.get('/v1/session')).toMatchObject({ status: 200, body: { signInName: 'sorrel', clanId } });
  expect(await personOf(api).signIn('sorrel')).toMatchObject({ status: 201 });
});

it('reaches every clan that the person was ever in, for somebody without a passphrase too', async () => {
  const { rows } = await api.database.owner.query<{ id: string }>(`select id from clan where id = $1`, [clanId]);
  expect(rows).toHaveLength(1);
  const other = await aClan(api.database.owner);
  const member = await aMember(api.database.owner, other.id, 'reader', { name: 'Tarnwick' });
  const person = await signedIn(api, member);
  expect(await person.delete(`/v1/memberships/${other.id}`)).toMatchObject({ status: 204 });
  expect(await placesOf('tarnwick')).toEqual(['public.api_key']);
  expect(await person.post('/v1/person/erasure', {})).toMatchObject({ status: 204 });
  expect(await placesOf('tarnwick')).toEqual([]);
});
