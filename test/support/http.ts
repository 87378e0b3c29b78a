import type { Test } from 'supertest';
import type { TestClan } from './factories.js';
import type { TestApi } from './test-api.js';

/** Something that was made over HTTP: where it is, and its tag then. */
export interface Made {
  readonly id: string;
  readonly at: string;
  readonly etag: string;
}

/** What a test of resources does again and again, as one clan. */
export interface Hand {
  get(path: string): Test;
  post(path: string, body: object): Test;
  /** Removes one as a client does: reads it, and sends the tag of what it read. */
  delete(path: string): Promise<Awaited<Test>>;
  /** Makes one; anything but success fails the test. */
  made(path: string, body: object): Promise<Made>;
  /** Changes one as a client does: reads it, and sends the tag of what it read. */
  patch(path: string, change: object): Promise<Awaited<Test>>;
  /** Sends any request with the tag that a resource has now. */
  matched(path: string, request: Test): Promise<Awaited<Test>>;
  /** Enters the result of a match, as whoever has just looked at it. */
  result(match: string, result: object): Promise<Awaited<Test>>;
  /** Chooses who reads an event, a game or a player. */
  show(path: string, visibility: string, clans?: readonly TestClan[]): Promise<Awaited<Test>>;
}

export function handOf(api: TestApi, clan: Pick<TestClan, 'key'>): Hand {
  const hand: Hand = {
    get: (path) => api.as(clan).get(path),
    post: (path, body) => api.as(clan).post(path).send(body),
    delete: (path) => hand.matched(path, api.as(clan).delete(path)),
    made: async (path, body) => {
      const response = await hand.post(path, body);
      expect(response).toMatchObject({ status: 201 });
      const id: unknown = response.body.id;
      return { id: String(id), at: response.headers['location'] ?? '', etag: response.headers['etag'] ?? '' };
    },
    patch: async (path, change) => {
      const { headers } = await hand.get(path);
      const request = api.as(clan).patch(path).set('Content-Type', 'application/merge-patch+json');
      return request.set('If-Match', headers['etag'] ?? '').send(change);
    },
    matched: async (path, request) => {
      const { headers } = await hand.get(path);
      return request.set('If-Match', headers['etag'] ?? '*');
    },
    result: (match, result) => hand.matched(match, api.as(clan).put(`${match}/result`).send(result)),
    show: (path, visibility, clans) => {
      const body = { visibility, ...(clans === undefined ? {} : { clans: clans.map(({ id }) => ({ clanId: id })) }) };
      return hand.matched(`${path}/visibility`, api.as(clan).put(`${path}/visibility`).send(body));
    },
  };
  return hand;
}
