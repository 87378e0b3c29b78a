import type { Response } from 'supertest';
import { CHEAP_PASSPHRASES, PASSPHRASE, personOf } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;

beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES, signInFailures: 3 });
  await personOf(api).signUp('marlow');
});
afterAll(() => api.close());

// Each test begins with nothing counted: what is counted is in the memory of a process.
const fresh = () => api.again({ passphrase: CHEAP_PASSPHRASES, signInFailures: 3 });
const WRONG = `${PASSPHRASE} not`;

function told({ status, headers, body }: Response): unknown {
  const { code, title } = body as { code?: string; title?: string };
  return { status, code, title, waits: headers['retry-after'] !== undefined };
}

it('refuses to guess on, in the same way for a name that nobody has', async () => {
  const service = await fresh();
  const answers: unknown[][] = [];
  for (const name of ['marlow', 'nobody']) {
    const ofName = [];
    for (const guess of [WRONG, WRONG, WRONG, PASSPHRASE])
      ofName.push(told(await personOf(service).signIn(name, guess)));
    answers.push(ofName);
  }
  expect(answers[1]).toEqual(answers[0]);
  const wrong = { status: 401, code: 'access.sign_in_refused', waits: false };
  expect(answers[0]).toMatchObject([wrong, wrong, wrong, { status: 429, code: 'request.too_many', waits: true }]);
  // By however it is written.
  expect(await personOf(service).signIn(' MARLOW ')).toMatchObject({ status: 429 });
  const page = service.browser().post('/account/sign-in').type('form');
  const refused = await page.send({ signInName: 'marlow', passphrase: PASSPHRASE });
  expect(refused.status).toBe(429);
  expect(Number(refused.headers['retry-after'])).toBeGreaterThan(0);
  expect(refused.text).toContain('signing in failed too often');
  await service.app.close();
});

it('counts many at once, and also the passphrase that a change or an erasure asks for', async () => {
  const service = await fresh();
  const guesses = await Promise.all(Array.from({ length: 8 }, () => personOf(service).signIn('marlow', WRONG)));
  expect(guesses.map(({ status }) => status).sort()).toEqual([401, 401, 401, 429, 429, 429, 429, 429]);
  await service.app.close();
  const other = await fresh();
  const marlow = personOf(other);
  await marlow.signIn('marlow');
  const change = () => marlow.put('/v1/passphrase', { passphrase: WRONG, newPassphrase: `${PASSPHRASE} new` });
  for (const status of [401, 401, 401, 429]) expect(await change()).toMatchObject({ status });
  expect(await marlow.post('/v1/person/erasure', { passphrase: PASSPHRASE })).toMatchObject({ status: 429 });
  await other.app.close();
});

it('begins anew after a success', async () => {
  const service = await fresh();
  for (let round = 0; round < 3; round += 1) {
    for (const guess of [WRONG, WRONG]) {
      expect(await personOf(service).signIn('marlow', guess)).toMatchObject({ status: 401 });
    }
    expect(await personOf(service).signIn('marlow')).toMatchObject({ status: 201 });
  }
  await service.app.close();
});

it('stops an address that tries one name after the other, even one with an account of its own', async () => {
  const service = await fresh();
  const statuses = [];
  for (let name = 0; name < 30; name += 1) {
    statuses.push((await personOf(service).signIn(`name ${name}`, WRONG)).status);
    if (name % 10 === 0) expect(await personOf(service).signIn('marlow')).toMatchObject({ status: 201 });
  }
  expect(new Set(statuses)).toEqual(new Set([401]));
  expect(await personOf(service).signIn('one more', WRONG)).toMatchObject({ status: 429 });
  await service.app.close();
});
