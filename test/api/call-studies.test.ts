import { startDemoApi, type DemoApi } from '../support/demo-api.js';

/** Who has found the answer to the call that spreads: seeds-demo/planted.ts. */
const HOLDERS = ['SundialRook', 'drowsypiston', 'lanternfish_k'];
const HOSTILE = '<script>alert(1)</script> [x](javascript:alert(1)) | "quoted"';

interface Line {
  readonly words: string;
  readonly plays: readonly { readonly second: number | null }[];
}

interface Rising {
  readonly words: string;
  readonly parts: readonly { readonly label: string }[];
  readonly byEvent: readonly { readonly count: number; readonly known: number; readonly users: number }[];
}

interface Study {
  readonly call: { readonly label: string; readonly plays: number };
  readonly giveaways: { readonly found: readonly Line[] };
}

let demo: DemoApi;
let renamed: string;

beforeAll(async () => {
  demo = await startDemoApi();
  renamed = await demo.idOf('player', 'tumblegate');
}, 120_000);
afterAll(() => demo.close());

const study = (query: string, type = 'application/json') =>
  demo.api.as(demo.clan).get(`/v1/call-studies?${query}`).set('Accept', type);

describe('the study of the call that spreads', () => {
  it('tells who uses it as the trends do, what it gives where, who has held it, how and why, with film', async () => {
    const { status, body } = await study('concept=counter read');
    expect(status).toBe(200);
    expect(body).toMatchObject({ side: 'offense', call: { label: 'counter read' }, usage: { verdict: 'rising' } });
    const trends = await demo.api.as(demo.clan).get('/v1/trends');
    const rising = (trends.body.trends as Rising[]).find(({ parts }) =>
      parts.every(({ label }) => label === 'counter read'),
    );
    expect(body.usage.words).toBe(rising?.words);
    const counts = (of: Rising['byEvent'] = []) => of.map(({ count, known, users }) => ({ count, known, users }));
    expect(counts(body.usage.byEvent)).toEqual(counts(rising?.byEvent));

    const [all, ...situations] = body.situations as { situation: string | null; results: { trials: number } }[];
    expect(all).toMatchObject({ situation: null });
    expect(situations.reduce((sum, { results }) => sum + results.trials, 0)).toBeLessThanOrEqual(
      all?.results.trials ?? 0,
    );

    const first = (body.games as { defense: { handle: string } }[]).slice(0, 3);
    expect(first.filter(({ defense }) => HOLDERS.includes(defense.handle)).length).toBeGreaterThanOrEqual(2);
    expect((body.answers as Line[])[0]?.words).toMatch(/^Narrow Door: .*went with forced off the design \d+ of \d+/);
    expect(body.film.length).toBeGreaterThan(5);
    for (const play of body.film) {
      expect(play).toMatchObject({ at: expect.stringMatching(/^\d+:\d\d/), second: expect.any(Number) });
      expect(play.address).toMatch(/#t=\d+$/);
    }
  });

  it('is on formation and concept together, which are fewer plays than either', async () => {
    const of = async (query: string): Promise<Study> => (await study(query)).body as Study;
    const [concept, formation] = [await of('concept=counter read'), await of('formation=trips')];
    const both = await of('concept=counter read&formation=trips');
    expect(both.call.label).toBe('counter read, three by one');
    expect(both.call.plays).toBeGreaterThan(0);
    expect(both.call.plays).toBeLessThan(Math.min(concept.call.plays, formation.call.plays));
    // A formation that is asked for cannot give the call away.
    expect(both.giveaways.found.filter(({ words }) => words.startsWith('formation'))).toEqual([]);
  });

  it('is a page of its own, and Markdown, with drawings and nothing loaded', async () => {
    const page = await study('concept=counter read&paper=a4', 'text/html');
    expect(page.status).toBe(200);
    expect(page.headers['content-security-policy']).toContain("default-src 'none'");
    expect(page.text).toContain('<svg');
    expect(page.text).not.toMatch(/<script|<img|<link|url\(/);
    for (const cited of page.text.match(/href="#([^"]+)"/g) ?? []) {
      expect(page.text).toContain(`id="${cited.slice(7, -1)}"`);
    }
    const markdown = await study('concept=counter read', 'text/markdown');
    expect(markdown.text).toMatch(/^# Call study: counter read\n/);
    expect(markdown.text).toMatch(/## Games that held it, the best first/);
    expect(markdown.text).toMatch(/\[video\]\(https/);
  });

  it('is on a defense too: what beat it', async () => {
    const { status, body } = await study('side=defense&coverage=cover 3');
    expect(status).toBe(200);
    const beyond = (body.games as { beyond: { mean: number } }[]).map(({ beyond: { mean } }) => mean);
    expect(beyond[0]).toBe(Math.max(...beyond));
    expect(body.moves).toEqual([]);
  });
});

describe('a call without a story', () => {
  // Concepts of the demo league on which seeds-demo/planted.ts plants nothing.
  it.each(['mesh', 'inside zone', 'power'])(
    '%s shows none: it neither spreads nor is held by an answer',
    async (concept) => {
      const { body } = await study(`concept=${concept}`);
      expect(body.call.plays).toBeGreaterThan(40);
      expect(['steady', 'open', null]).toContain(body.usage.verdict);
      for (const { againstUsual, timesMet } of body.answers) {
        if (timesMet >= 5) expect(againstUsual.interval.upper).toBeGreaterThan(0);
      }
    },
  );
});

describe('coaching points in a study', () => {
  it('are those on the call that the clan reads, escaped; none on a page that is to leave the clan', async () => {
    const write = (point: object) => demo.api.as(demo.clan).post('/v1/coaching-points').send(point);
    expect((await write({ about: 'call', concept: 'counter read', text: HOSTILE })).status).toBe(201);
    expect((await write({ about: 'call', concept: 'mesh', text: 'Rub routes.' })).status).toBe(201);
    const { body } = await study('concept=counter read');
    expect(body.coachingPoints).toMatchObject([{ text: HOSTILE, revision: 1 }]);
    const page = await study('concept=counter read', 'text/html');
    expect(page.text).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(page.text).not.toContain('<script');
    const markdown = await study('concept=counter read', 'text/markdown');
    expect(markdown.text).not.toContain('<script');
    expect(markdown.text).not.toMatch(/[^\\]\]\(javascript/);

    const away = await study('concept=counter read&ownBook=false', 'text/markdown');
    expect(away.text).not.toContain('alert(1)');
    expect(away.text).not.toContain('Narrow Door');
  });
});

describe('what cannot be studied', () => {
  it('is refused by name', async () => {
    expect(await study('side=defense&concept=mesh')).toMatchObject({ status: 400, body: { code: 'request.invalid' } });
    expect(await study('concept=nothing of the kind')).toMatchObject({ status: 400 });
  });

  it('is told in counts where the film shows no such play', async () => {
    const call = await demo.api.as(demo.clan).post('/v1/terms').send({ kind: 'concept', name: 'Paper Lantern' });
    expect(call.status).toBe(201);
    const { status, body } = await study('concept=paper lantern');
    expect(status).toBe(200);
    expect(body).toMatchObject({ call: { plays: 0 }, games: [], film: [], usage: { verdict: null } });
    const page = await study('concept=paper lantern', 'text/html');
    expect(page.text).toContain('No play of these games has a second of the video.');
  });
});

describe('what is computed over the whole archive', () => {
  const ask = (path: string, type: string, tag = '') =>
    demo.api.as(demo.clan).get(path).set('Accept', type).set('If-None-Match', tag);

  it.each(['application/json', 'text/markdown', 'text/html'])(
    'is had once as %s, and again only when something that it says has changed',
    async (type) => {
      const [event, player, opponent] = [
        await demo.idOf('event', 'weathervane-classic-2026'),
        await demo.idOf('player', 'OxbowFold'),
        await demo.idOf('player', 'GraniteMuffin'),
      ];
      const sheet = `/v1/call-sheets?eventId=${event}&playerId=${player}`;
      const calls = ['/v1/call-studies?concept=counter read', sheet];
      const figures = ['/v1/trends', `/v1/answers?playerId=${opponent}&concept=counter read`];
      const paths = type === 'application/json' ? [...calls, ...figures] : calls;
      const tags = new Map<string, string>();
      for (const path of paths) {
        const { status, headers, text } = await ask(path, type);
        expect({ path, status }).toEqual({ path, status: 200 });
        const tag = headers['etag'] ?? '';
        tags.set(path, tag);
        expect(await ask(path, type, `"other", ${tag}`)).toMatchObject({ status: 304, text: '' });
        // Kept here, for a client that has nothing.
        expect((await ask(path, type)).text).toBe(text);
      }
      expect(new Set(tags.values()).size).toBe(paths.length);

      await rename('TumbleGate the Elder');
      for (const path of paths) expect((await ask(path, type, tags.get(path))).status).toBe(200);
      await rename('tumblegate');
      for (const path of paths) expect((await ask(path, type, tags.get(path))).status).toBe(304);
    },
  );

  it('differs by media type, menu and what the clan has written', async () => {
    const path = '/v1/call-studies?concept=power';
    const tagOf = async (type: string): Promise<string> => (await ask(path, type)).headers['etag'] ?? '';
    const [json, page] = [await tagOf('application/json'), await tagOf('text/html')];
    expect(json).not.toBe(page);
    await demo.api
      .as(demo.clan)
      .post('/v1/coaching-points')
      .send({ about: 'call', concept: 'power', text: 'Spill it.' });
    const written = await ask(path, 'application/json', json);
    expect(written.body.coachingPoints).toMatchObject([{ text: 'Spill it.' }]);
    await demo.api
      .as(demo.clan)
      .post('/v1/menu-calls')
      .send({ side: 'defense', name: 'Slow Gate', coverage: 'cover 2' });
    const installed = await ask(path, 'application/json', written.headers['etag']);
    expect((installed.body.answers as { label: string }[]).map(({ label }) => label)).toContain('Slow Gate');
  });

  async function rename(handle: string): Promise<void> {
    const path = `/v1/players/${renamed}`;
    const { headers } = await demo.api.as(demo.clan).get(path);
    const changed = await demo.api
      .as(demo.clan)
      .patch(path)
      .set('If-Match', headers['etag'] ?? '')
      .set('Content-Type', 'application/merge-patch+json')
      .send({ handle });
    expect(changed.status).toBe(200);
  }
});
