import { startDemoApi, type DemoApi } from '../support/demo-api.js';

// Two clans of the demo league scout the same opponent, and each sees what it may: its own plays and the archive's.

let demo: DemoApi;

beforeAll(async () => {
  demo = await startDemoApi();
}, 120_000);
afterAll(() => demo.close());

interface Clan {
  readonly key: string;
}
interface Seen {
  readonly snaps: number;
  readonly plays: readonly string[];
}

/** The profile of the opponent to a clan, and which plays it rests on. */
async function seenBy(clan: Clan): Promise<Seen> {
  const { api } = demo;
  const { body } = await api.as(clan).get('/v1/players?name=GraniteMuffin');
  const at = `/v1/players/${String(body.items[0].id)}`;
  const profile = await api.as(clan).get(`${at}/profile?side=offense`);
  expect(profile.status).toBe(200);
  const plays = await api.as(clan).get(`${at}/plays?side=offense&limit=200`);
  const items = plays.body.items as { chartId: string }[];
  return { snaps: profile.body.snaps, plays: [...new Set(items.map(({ chartId }) => chartId))].sort() };
}

describe('two clans with overlapping players', () => {
  it('see different profiles of the same opponent, each of what it may see', async () => {
    const [ours, theirs] = [await seenBy(demo.clan), await seenBy(demo.rival)];
    expect(ours.snaps).toBeGreaterThan(theirs.snaps);
    expect(theirs.snaps).toBeGreaterThan(0);
    for (const [reader, other] of [
      [demo.clan, theirs],
      [demo.rival, ours],
    ] as const) {
      const statuses = [];
      for (const chart of other.plays) statuses.push((await demo.api.as(reader).get(`/v1/charts/${chart}`)).status);
      // Only what the organizer published is read by both.
      expect(statuses).toContain(404);
    }
  });
});
