import { startDemoApi, type DemoApi } from '../support/demo-api.js';

// The demo league's planted story, seeds-demo/data/hidden-tendencies.json: a call that spreads and who holds it.

let demo: DemoApi;

beforeAll(async () => {
  demo = await startDemoApi();
}, 120_000);
afterAll(() => demo.close());

interface Trended {
  readonly dimension: string;
  readonly verdict: string;
  readonly parts: readonly { readonly label: string }[];
  readonly byEvent: readonly { readonly users: number; readonly count: number; readonly plays: readonly object[] }[];
}

const trended = (list: readonly Trended[], label: string): Trended | undefined =>
  list.find(({ dimension, parts }) => dimension === 'concept' && parts[0]?.label === label);

describe('trends of the demo league', () => {
  it('show the call that spreads, from whom, and the plays', async () => {
    const { body } = await demo.api.as(demo.clan).get('/v1/trends');
    expect(body.events).toMatchObject([
      { name: 'Copper Kettle Cup 2026' },
      { name: 'Thimble Open 2026' },
      { name: 'Weathervane Classic 2026' },
    ]);
    const story = trended(body.trends, 'counter read');
    expect(story).toMatchObject({ verdict: 'rising' });
    const users = story?.byEvent.map((usage) => usage.users) ?? [];
    expect(users[0]).toBeLessThanOrEqual(3);
    expect(users[2]).toBeGreaterThanOrEqual(12);
    for (const { count, plays } of story?.byEvent ?? []) expect(plays).toHaveLength(count);
    expect(['FoxgloveFive', 'OtterParade', 'tumblegate']).toContain(body.trends[0].firstSeen.handle);
    expect(body.trends[0].firstSeen.playedOn).toMatch(/^2026-02-0/);
  });

  it.each(['inside zone', 'counter'])('find no rise in %s, which has no story', async (label) => {
    const { body } = await demo.api.as(demo.clan).get('/v1/trends?all=true');
    expect(['steady', 'open']).toContain(trended(body.trends, label)?.verdict);
  });

  it('are tagged by what went in', async () => {
    const { headers } = await demo.api.as(demo.clan).get('/v1/trends');
    const again = await demo.api
      .as(demo.clan)
      .get('/v1/trends')
      .set('If-None-Match', headers['etag'] ?? '');
    expect(again.status).toBe(304);
  });

  it('of defenses are answered too', async () => {
    const { body } = await demo.api.as(demo.clan).get('/v1/trends?side=defense&all=true');
    expect(body.tested).toBeGreaterThan(5);
  });
});
