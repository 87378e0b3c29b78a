import { aClan, type TestClan } from '../support/factories.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

const FRIEND = 'https://book.example';
const STRANGER = 'https://elsewhere.example';

let api: TestApi;
let open: TestApi;
let secure: TestApi;
let clan: TestClan;

beforeAll(async () => {
  api = await startTestApi();
  open = await startTestApi({ corsOrigins: [FRIEND] });
  secure = await startTestApi({ publicUrl: FRIEND });
  clan = await aClan(api.database.owner);
});
afterAll(async () => {
  await api.close();
  await open.close();
  await secure.close();
});

describe('every answer', () => {
  it.each(['/v1/events', '/v1/nowhere', '/docs/', '/openapi.json', '/health/live'])(
    'of %s is guarded',
    async (path) => {
      const { headers } = await api.as(clan).get(path);
      expect(headers).toMatchObject({
        'content-security-policy': expect.stringContaining("default-src 'self'"),
        'cross-origin-opener-policy': 'same-origin',
        'cross-origin-resource-policy': 'same-origin',
        'referrer-policy': 'no-referrer',
        'x-content-type-options': 'nosniff',
        'x-frame-options': 'SAMEORIGIN',
      });
      expect(headers['x-powered-by']).toBeUndefined();
      // Over plain HTTP it must not be said.
      expect(headers['strict-transport-security']).toBeUndefined();
    },
  );

  it('tells a browser to stay with TLS where people reach the service by it', async () => {
    const { headers } = await secure.anonymous.get('/health/live');
    expect(headers['strict-transport-security']).toBe('max-age=31536000; includeSubDomains');
  });

  it('is kept by no cache unless it says so itself', async () => {
    const kept = async (path: string): Promise<unknown> => (await api.as(clan).get(path)).headers['cache-control'];
    expect(await kept('/v1/events')).toBe('private, no-cache');
    expect(await kept('/v1/nowhere')).toBe('no-store');
    expect(await kept('/v1/events/01890a5d-ac96-774b-bcce-b302099a8057')).toBe('no-store');
    const made = await api.as(clan).post('/v1/players').send({ handle: 'Mossback' });
    expect(made.headers['cache-control']).toBe('private, no-cache');
  });
});

describe('a page of another origin', () => {
  const asked = (of: TestApi, origin: string) =>
    of.anonymous.options('/v1/events').set({
      Origin: origin,
      'Access-Control-Request-Method': 'GET',
      'Access-Control-Request-Headers': 'authorization',
    });

  it('may ask for nothing unless the operator names its origin', async () => {
    for (const [of, origin] of [
      [api, FRIEND],
      [api, 'null'],
      [open, STRANGER],
      [open, `${FRIEND}.elsewhere.example`],
    ] as const) {
      expect((await asked(of, origin)).headers['access-control-allow-origin']).toBeUndefined();
      const { headers } = await of.anonymous.get('/health/live').set('Origin', origin);
      expect(headers['access-control-allow-origin']).toBeUndefined();
    }
  });

  it('of a named origin may, with a key but never with a cookie', async () => {
    const { headers, status } = await asked(open, FRIEND);
    expect(status).toBe(204);
    expect(headers['access-control-allow-origin']).toBe(FRIEND);
    expect(headers['access-control-allow-credentials']).toBeUndefined();
    expect(headers['vary']).toContain('Origin');
    const answer = await open.anonymous.get('/health/live').set('Origin', FRIEND);
    expect(answer.headers['access-control-expose-headers']).toContain('ETag');
  });
});

describe('an address', () => {
  it('is found in capitals, and with a slash at its end', async () => {
    const { body } = await api.as(clan).get('/v1/events').expect(200);
    expect((await api.as(clan).get('/V1/Events').expect(200)).body).toEqual(body);
    expect((await api.as(clan).get('/v1/events/').expect(200)).body).toEqual(body);
  });

  it('that only begins like one is none', async () => {
    for (const path of ['/v1', '/v1/event', '/v1/eventsx', '//v1/events', '/v1//events']) {
      await api.as(clan).get(path).expect(404);
    }
  });

  it('says which methods it has, all of its resource counted', async () => {
    const { headers } = await api.anonymous.options('/v1/events').expect(200);
    expect(headers['allow']).toBe('GET, HEAD, POST');
  });

  it('answers HEAD as GET, without the body', async () => {
    const got = await api.as(clan).get('/v1/events').expect(200);
    const { headers, text } = await api.as(clan).head('/v1/events').expect(200);
    expect(headers['etag']).toBe(got.headers['etag']);
    expect(text).toBeUndefined();
  });
});
