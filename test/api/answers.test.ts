import { startDemoApi, type DemoApi } from '../support/demo-api.js';
import { aClan } from '../support/factories.js';
import { TWO_PLAYERS } from '../support/small-league.js';
import { jsonLines, startTestApi } from '../support/test-api.js';

interface Answered {
  readonly words: string;
  readonly label: string;
  readonly menuCall: { readonly id: string; readonly name: string; readonly reachableByCheck: boolean } | null;
  readonly timesMet: number;
  readonly who: readonly { readonly handle: string; readonly plays: number }[];
  readonly plays: readonly { readonly playNumber: number; readonly second: number | null }[];
  readonly againstUsual: { readonly mean: number; readonly interval: { lower: number; upper: number } };
  readonly points: { readonly mean: number; readonly interval: { lower: number; upper: number } };
  readonly price: { readonly label: string } | null;
  readonly mechanisms: readonly { readonly name: string; readonly established: boolean }[];
}

interface Met {
  readonly words: string;
  readonly defense: { readonly handle: string };
  readonly answers: readonly { readonly label: string }[];
  readonly beyond: { readonly mean: number };
}

interface Share {
  readonly label: string;
  readonly share: number;
}

interface Stop {
  readonly words: string;
  readonly lean: number;
  readonly mix: readonly Share[];
  readonly ifTheyStay: { readonly mean: number };
}

interface Mixed {
  readonly situation: string;
  readonly gap: number;
  readonly equilibrium: readonly Share[];
  readonly theirs: readonly Share[];
  readonly bestResponse: string;
  readonly dial: readonly Stop[];
  readonly dominated: readonly { readonly label: string }[];
  readonly ours: readonly { readonly label: string }[];
}

const sum = (shares: readonly Share[]): number => shares.reduce((all, { share }) => all + share, 0);

/** Who has found the answer to the call that spreads: seeds-demo/planted.ts. */
const HOLDERS = ['SundialRook', 'drowsypiston', 'lanternfish_k'];

let demo: DemoApi;
let opponent: string;

beforeAll(async () => {
  demo = await startDemoApi();
  opponent = await demo.idOf('player', 'GraniteMuffin');
}, 120_000);
afterAll(() => demo.close());

const ask = (path: string) => demo.api.as(demo.clan).get(path);

describe('the answers to the call that spreads', () => {
  it('find the games of the few who hold it first, with what they did and where it is on film', async () => {
    const { status, body } = await ask(`/v1/answers?playerId=${opponent}&concept=counter read`);
    expect(status).toBe(200);
    expect(body.call).toMatchObject({ label: 'counter read' });
    expect(body.call.fieldPlays).toBeGreaterThan(80);
    const first = (body.games as Met[]).slice(0, 3);
    expect(first.filter(({ defense }) => HOLDERS.includes(defense.handle)).length).toBeGreaterThanOrEqual(2);
    expect(first[0]?.answers.map(({ label }) => label).join()).toContain('three down tight');
    expect(first[0]?.words).toMatch(
      /\S+ points a play below what was expected; drawn towards the other games \S+ \(-\d.*\); succeeded \d of \d, expected \d/,
    );
    expect(body.games[0].plays[0].second).not.toBeNull();
  });

  it('name our own call that does what held it, why, and who did it', async () => {
    const { body } = await ask(`/v1/answers?playerId=${opponent}&concept=counter read`);
    const [best] = body.huddle as Answered[];
    expect(best).toMatchObject({ label: 'Narrow Door', menuCall: { name: 'Narrow Door', reachableByCheck: true } });
    expect(HOLDERS).toContain(best?.who[0]?.handle);
    expect(best?.againstUsual.mean).toBeLessThan(0);
    expect(best?.mechanisms.filter(({ established }) => established).map(({ name }) => name)).toContain(
      'forced off the design',
    );
    expect(best?.words).toMatch(/went with forced off the design \d+ of \d+, else \d+ of \d+/);
    expect(best?.words).not.toMatch(/caus/);
    expect(best?.plays).toHaveLength(best?.timesMet ?? -1);
  });

  it('list what we own before what is to install, and what we reach by a check by itself', async () => {
    const { body } = await ask(`/v1/answers?playerId=${opponent}&concept=counter read&formation=trips`);
    const huddle = body.huddle as Answered[];
    const owned = huddle.filter(({ menuCall }) => menuCall !== null).length;
    // Of nine; one defense is like nothing that was charted.
    expect(owned).toBe(8);
    expect(huddle.slice(0, owned).every(({ menuCall }) => menuCall !== null)).toBe(true);
    expect(huddle.length).toBeGreaterThan(owned);
    expect((body.checks as Answered[]).map(({ label }) => label).sort()).toEqual([
      'Narrow Door',
      'Pocketknife',
      'Umbra',
    ]);
    expect(body.call.fromFormation).toBeLessThan(body.call.fieldPlays);
  });

  it('are the same from the huddle whatever formation is asked for, since it is not seen there', async () => {
    const [any, trips] = [
      await ask(`/v1/answers?playerId=${opponent}&concept=counter read`),
      await ask(`/v1/answers?playerId=${opponent}&concept=counter read&formation=trips`),
    ];
    expect(trips.body.huddle).toEqual(any.body.huddle);
  });
});

describe('question 6: what can I call from my own menu against their best run?', () => {
  it('is answered by stage, with interval, mechanism, price and who did it', async () => {
    const { body } = await ask(`/v1/answers?playerId=${opponent}&best=run`);
    expect(body.call.opponentPlays).toBeGreaterThanOrEqual(4);
    const own = (body.huddle as Answered[]).filter(({ menuCall }) => menuCall !== null);
    expect(own).toHaveLength(8);
    for (const { points, price, words, mechanisms, timesMet } of own) {
      expect(points.interval.lower).toBeLessThan(points.mean);
      expect(points.interval.upper).toBeGreaterThan(points.mean);
      expect(price?.label).not.toBe('');
      expect(words).toMatch(/^.+: (never seen against it|met \d+ times? in \d+ games?)/);
      expect(mechanisms.length > 0).toBe(timesMet > 0);
    }
    const notOwned = (body.huddle as Answered[]).slice(own.length);
    expect(notOwned.every(({ menuCall }) => menuCall === null)).toBe(true);
    expect(body).toMatchObject({ checks: expect.any(Array), moves: expect.any(Array), byHand: expect.any(Array) });
  });
});

describe('question 3: third and seven, they motion a back out: what is coming?', () => {
  const snap = { down: 3, distance: 7, motion: 'short out' };
  const coming = (query: object = {}) =>
    demo.api
      .as(demo.clan)
      .post(`/v1/players/${opponent}/next-call`)
      .send({ snap, ...query });

  it('is answered with the top three, raw counts, the level it rests on, its games and clips', async () => {
    const { status, body } = await coming();
    expect(status).toBe(200);
    expect(body.calls).toHaveLength(3);
    const [likely] = body.calls as { reasons: { of: string; count: number; known: number; games: number }[] }[];
    expect(body.restsOn).toMatch(/^(GraniteMuffin|field) on 3rd and 7-10/);
    expect(body.words).toMatch(/\(\d+ of \d+\).*\(\d+ of \d+\).*\(\d+ of \d+\)/);
    expect(likely?.reasons[0]).toMatchObject({ of: 'field' });
    for (const { count, known } of likely?.reasons ?? []) expect(count).toBeLessThanOrEqual(known);
    const plays = body.plays as { gameId: string; second: number | null }[];
    expect(plays).toHaveLength(body.known);
    expect(new Set(plays.map(({ gameId }) => gameId)).size).toBe(body.games);
    for (const { second } of plays) expect(second).toBeGreaterThanOrEqual(0);
  });

  it('names the narrower level where there is one, and says not to rest a call on few plays', async () => {
    const { body } = await coming({ snap: { ...snap, formation: 'bunch' } });
    expect(body.restsOn).toBe('GraniteMuffin on 3rd and 7-10, formation bunch');
    expect(body.known).toBeLessThan(10);
    expect(body.warning).toBe(`${body.known} plays: do not rest a call on it`);
    expect(body.words).toContain(body.warning);
  });
});

describe('question 5: where does he put the defender that he controls, and what opens?', () => {
  interface Clip {
    readonly second: number | null;
  }
  interface Opened {
    readonly words: string;
    readonly area: string;
    readonly hits: {
      readonly words: string;
      readonly count: number;
      readonly known: number;
      readonly plays: readonly Clip[];
    };
    readonly ownCalls: readonly {
      readonly words: string;
      readonly name: string;
      readonly count: number;
      readonly known: number;
      readonly plays: readonly Clip[];
    }[];
  }

  it('is answered in one place: start, action, the area left, our calls that hit it, clips and counts', async () => {
    const { body } = await ask(`/v1/players/${opponent}/manual-defender`);
    const [all, ...bySituation] = body.situations as {
      situation: string;
      starts: { words: string; count: number; known: number; plays: readonly Clip[] }[];
      actions: { words: string; count: number; known: number; plays: readonly Clip[] }[];
    }[];
    expect(all?.situation).toBe('all snaps');
    expect(bySituation.length).toBeGreaterThan(3);
    for (const of of [...(all?.starts ?? []), ...(all?.actions ?? [])]) {
      expect(of.words).toMatch(/\d+ of \d+/);
      expect(of.plays).toHaveLength(of.count);
    }
    const openings = body.openings as Opened[];
    for (const { words, area, hits } of openings) {
      expect(words).toContain(`leaves the ${area}: ${hits.known === 0 ? 'not seen on this film' : 'thrown there'}`);
      expect(hits.plays).toHaveLength(hits.count);
    }
    expect(openings.some(({ hits }) => hits.known === 0)).toBe(true);
    const owned = openings.flatMap(({ ownCalls }) => ownCalls);
    expect(owned.length).toBeGreaterThan(0);
    for (const { words, name, count, known, plays } of owned) {
      expect(words).toContain(`${name} (`);
      expect(words).toContain(`thrown there ${count} of ${known} by anybody`);
      expect(plays).toHaveLength(count);
    }
    // The same area is hit by the same calls, whichever action left it.
    for (const { area, ownCalls } of openings) {
      expect(ownCalls).toEqual(openings.find((other) => other.area === area)?.ownCalls);
    }
  });

  it('is answered on the other side: what beat his defense, and our own calls against it', async () => {
    const { status, body } = await ask(`/v1/answers?playerId=${opponent}&side=defense&coverage=cover 3`);
    expect(status).toBe(200);
    expect(body.call.label).toBe('cover 3');
    const own = (body.huddle as Answered[]).filter(({ menuCall }) => menuCall !== null);
    expect(own.length).toBeGreaterThanOrEqual(10);
    // The best for us first: our offense gains what their defense gives.
    const gains = own.map(({ points }) => points.mean);
    expect(gains).toEqual([...gains].sort((one, other) => other - one));
    const games = body.games as Met[];
    expect(games[0]?.beyond.mean).toBe(Math.max(...games.map(({ beyond }) => beyond.mean)));
  });
});

describe('call mixes', () => {
  it.each(['offense', 'defense'])('against the %s go from safe to bold and are equilibria', async (side) => {
    const { status, body } = await ask(`/v1/call-mix?playerId=${opponent}&side=${side}`);
    expect(status).toBe(200);
    expect(body.situations.length).toBeGreaterThan(5);
    expect(body.situations.length).toBeLessThanOrEqual(12);
    for (const situation of body.situations as Mixed[]) {
      expect(situation.gap).toBeLessThan(1e-9);
      expect(sum(situation.equilibrium)).toBeCloseTo(1, 2);
      expect(sum(situation.theirs)).toBeCloseTo(1, 2);
      const [safe, bold] = [situation.dial[0], situation.dial.at(-1)];
      expect(safe?.lean).toBe(0);
      expect(bold).toMatchObject({ lean: 1, mix: [{ label: situation.bestResponse, share: 1 }] });
      expect(bold?.ifTheyStay.mean).toBeGreaterThanOrEqual((safe?.ifTheyStay.mean ?? Infinity) - 1e-4);
      expect(safe?.words).toMatch(
        /^safe: .+; if they stay .+ for us; if they adjust \(.+\) .+, and with 95 % at least/,
      );
      for (const { label } of situation.dominated) {
        expect(situation.equilibrium.map((one) => one.label)).not.toContain(label);
      }
    }
  });

  it('of one situation are asked for by its name, and come again from their tag', async () => {
    const path = `/v1/call-mix?playerId=${opponent}&situation=3rd and 7-10`;
    const { body, headers } = await ask(path);
    expect((body.situations as Mixed[]).map(({ situation }) => situation)).toEqual(['3rd and 7-10']);
    const again = await ask(path).set('If-None-Match', headers['etag'] ?? '');
    expect(again.status).toBe(304);
    await demo.api
      .as(demo.clan)
      .post('/v1/menu-calls')
      .send({ side: 'defense', name: 'Wide Gate', coverage: 'cover 2' });
    const after = await ask(path).set('If-None-Match', headers['etag'] ?? '');
    expect(after.status).toBe(200);
    const [mixed] = after.body.situations as Mixed[];
    expect(mixed?.ours.map(({ label }) => label)).toContain('Wide Gate');
  });
});

describe('what cannot be answered', () => {
  it.each([
    ['/v1/answers', 'playerId'],
    ['/v1/answers?playerId=OPPONENT&concept=nothing like it', 'concept'],
    ['/v1/answers?playerId=OPPONENT&best=kick', 'best'],
    ['/v1/call-mix?playerId=OPPONENT&situation=5th and 1', 'situation'],
    ['/v1/call-mix?playerId=OPPONENT&side=bench', 'side'],
  ])('is refused: %s', async (path, field) => {
    expect(await ask(path.replace('OPPONENT', opponent))).toMatchObject({
      status: 400,
      body: { errors: expect.arrayContaining([expect.objectContaining({ field })]) },
    });
  });

  it('is said plainly where nothing is charted', async () => {
    const empty = await startTestApi();
    try {
      const clan = await aClan(empty.database.owner);
      const as = empty.as(clan);
      await as
        .post('/v1/imports')
        .set('Content-Type', 'application/x-ndjson')
        .send(jsonLines([...TWO_PLAYERS]));
      const { items } = (await as.get('/v1/players')).body as { items: { id: string }[] };
      const id = items[0]?.id ?? '';
      const answers = await as.get(`/v1/answers?playerId=${id}`);
      expect(answers).toMatchObject({ status: 200, body: { games: [], huddle: [], moves: [] } });
      expect(answers.body.restsOn).toContain('too few plays');
      expect(await as.get(`/v1/call-mix?playerId=${id}`)).toMatchObject({ status: 200, body: { situations: [] } });
      expect(await as.get(`/v1/answers?playerId=${id}&best=run`)).toMatchObject({ status: 400 });
    } finally {
      await empty.close();
    }
  });
});
