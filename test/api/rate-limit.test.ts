import type { Response } from 'supertest';
import { aClan, type TestClan } from '../support/factories.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

/** Longer than any test, so that no window ends within one. */
const WINDOW_SECONDS = 3_600;

let api: TestApi;
let clan: TestClan;

afterEach(() => api.close());

async function start(rateLimitRequests: number, rateLimitAddressRequests: number): Promise<void> {
  api = await startTestApi({
    ...{ rateLimitRequests, rateLimitAddressRequests, rateLimitWindowSeconds: WINDOW_SECONDS },
  });
  clan = await aClan(api.database.owner);
}

const read = (key: string): Promise<Response> => api.as({ key }).get('/v1/events').then();
const invented = (place: number): string => `rbk_${String(place).padStart(43, 'x')}`;

it('tells with every answer what is left, and refuses what is too much with 429 and when to ask again', async () => {
  await start(3, 100);
  for (const left of [2, 1, 0]) {
    const { status, headers } = await read(clan.key);
    expect(status).toBe(200);
    expect(headers['ratelimit-policy']).toBe(`"key";q=3;w=${WINDOW_SECONDS}`);
    expect(headers['ratelimit']).toMatch(new RegExp(`^"key";r=${left};t=\\d+$`));
  }
  const refused = await read(clan.key);
  expect(refused).toMatchObject({ status: 429, body: { code: 'request.too_many' } });
  expect(refused.headers['content-type']).toContain('application/problem+json');
  expect(Number(refused.headers['retry-after'])).toBeGreaterThan(0);
  expect(Number(refused.headers['retry-after'])).toBeLessThanOrEqual(WINDOW_SECONDS);
  expect(refused.headers['ratelimit']).toMatch(/^"key";r=0;t=\d+$/);
});

it('counts each key apart, however the header is written', async () => {
  await start(2, 100);
  const other = await aClan(api.database.owner);
  const spaced = (): Promise<Response> =>
    api.anonymous.get('/v1/events').set('Authorization', `bearer   ${clan.key}`).then();
  expect([(await read(clan.key)).status, (await spaced()).status, (await spaced()).status]).toEqual([200, 200, 429]);
  expect((await read(other.key)).status).toBe(200);
});

it('stops an address that tries invented keys, and no key that works from there', async () => {
  await start(100, 4);
  expect((await read(clan.key)).status).toBe(200);
  const statuses: number[] = [];
  for (const place of [1, 2, 3, 4, 5]) statuses.push((await read(invented(place))).status);
  expect(statuses).toEqual([401, 401, 401, 429, 429]);
  expect((await api.anonymous.get('/v1/events')).status).toBe(429);
  expect((await read(clan.key)).status).toBe(200);
});

it('asks a revoked key for the quota of its address again', async () => {
  await start(100, 2);
  expect((await read(clan.key)).status).toBe(200);
  await api.database.owner.query('update api_key set revoked_at = now() where clan_id = $1', [clan.id]);
  expect([(await read(clan.key)).status, (await read(clan.key)).status, (await read(clan.key)).status]).toEqual([
    401, 401, 429,
  ]);
});

it('limits nothing where the setting is 0, and never the probes', async () => {
  await start(1, 1);
  for (const path of ['/health/live', '/openapi.json', '/health/live']) {
    const { status, headers } = await api.anonymous.get(path);
    expect([path, status, headers['ratelimit']]).toEqual([path, 200, undefined]);
  }
  await api.close();
  await start(0, 1);
  for (let left = 3; left > 0; left -= 1) expect((await read(clan.key)).headers['ratelimit']).toBeUndefined();
});
