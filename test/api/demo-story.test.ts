import { demoAddresses } from '#api/commands/demo-addresses.js';
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

describe('the call sheet of the demo league', () => {
  const sheetOf = async (query = '') => {
    const [event, player] = [
      await demo.idOf('event', 'weathervane-classic-2026'),
      await demo.idOf('player', 'OxbowFold'),
    ];
    return demo.api.as(demo.clan).get(`/v1/call-sheets?eventId=${event}&playerId=${player}${query}`);
  };

  it('has a cell for every situation, our own calls, counts, clips and at most three changes', async () => {
    const { body } = await sheetOf();
    expect(body).toMatchObject({ opponent: 'GraniteMuffin', round: 'quarter-final' });
    const cells = [...body.sheet.offense.cells, ...body.sheet.defense.cells] as {
      readonly key: string;
      readonly snaps: number;
      readonly calls: readonly { readonly turns: number }[];
      readonly order: readonly number[];
      readonly theirs: readonly { readonly count: number; readonly known: number; readonly plays: readonly object[] }[];
      readonly change: object | null;
    }[];
    expect(cells).toHaveLength(30);
    expect(cells.filter(({ change }) => change !== null).length).toBeLessThanOrEqual(3);
    for (const { calls, order, theirs } of cells) {
      expect(calls.length).toBeGreaterThanOrEqual(1);
      expect(calls.length).toBeLessThanOrEqual(3);
      expect(calls.map(({ turns }) => turns)).toEqual(
        calls.map((_, place) => order.filter((turn) => turn === place).length),
      );
      for (const { count, known, plays } of theirs) {
        expect(plays).toHaveLength(count);
        expect(count).toBeLessThanOrEqual(known);
      }
    }
    expect(body.sheet.clips.length).toBeGreaterThan(10);
  });

  it('is the same again, and mixes in another order by another seed', async () => {
    const [once, again, other] = [await sheetOf(), await sheetOf(), await sheetOf('&seed=5')];
    expect(again.body).toEqual(once.body);
    const orders = ({ body }: { body: { sheet: { offense: { cells: { order: number[] }[] } } } }): number[][] =>
      body.sheet.offense.cells.map(({ order }) => order);
    expect(orders(other)).not.toEqual(orders(once));
    expect(orders(other).map((order) => [...order].sort())).toEqual(orders(once).map((order) => [...order].sort()));
  });

  it.each([
    ['text/markdown', /^# Call sheet against GraniteMuffin\n/],
    ['text/plain', /^Call sheet against GraniteMuffin\n=/],
  ])('is had as %s', async (type, start) => {
    const [event, player] = [
      await demo.idOf('event', 'weathervane-classic-2026'),
      await demo.idOf('player', 'OxbowFold'),
    ];
    const sheet = async (lean: number): Promise<string> => {
      const path = `/v1/call-sheets?eventId=${event}&playerId=${player}&lean=${lean}`;
      return (await demo.api.as(demo.clan).get(path).set('Accept', type)).text;
    };
    const [safe, bold] = [await sheet(0), await sheet(1)].map((text) => text.replaceAll(/\s+/g, ' '));
    expect(await sheet(0)).toMatch(start);
    expect(safe).toContain('1 change from the base sheet, marked CHANGED.');
    expect(safe?.match(/CHANGED, base:/g)).toHaveLength(1);
    expect(bold).toContain('no change from the base sheet is worth making against them.');
    expect(bold).not.toContain('CHANGED');
  });
});

describe('the mixes of the demo report', () => {
  it('never hold a call of which they say that it never pays', async () => {
    const { body } = await demo.api.as(demo.clan).get(`/v1/round-reports/${demo.reportId}`);
    const mixes = body.answers.mixes as { dial: { mix: string }[]; neverPays: string[] }[];
    expect(mixes.some(({ neverPays }) => neverPays.length > 0)).toBe(true);
    for (const { dial, neverPays } of mixes) {
      const held = dial.map(({ mix }) => mix).join(', ');
      expect(neverPays.filter((call) => held.includes(`${call} `))).toEqual([]);
    }
  });
});

// Question 7: "4th and 2 at their 38, down 4, 3:10 left, one timeout: them? me?"
describe('a fourth down in the demo league', () => {
  it('tells their go rate against the field, our figures, drives left, and what is guessed', async () => {
    const [event, us, them] = [
      await demo.idOf('event', 'weathervane-classic-2026'),
      await demo.idOf('player', 'OxbowFold'),
      await demo.idOf('player', 'GraniteMuffin'),
    ];
    const { body } = await demo.api
      .as(demo.clan)
      .get(
        `/v1/players/${us}/fourth-down?opponentId=${them}&eventId=${event}&distance=2&yardsToGoal=38` +
          '&scoreDifference=-4&quarter=4&clockSeconds=190&timeouts=1',
      );
    expect(body.them.words).toMatch(/went for it on fourth down, distance 2-3: \d+ of \d+/);
    expect(body.them.field.known).toBeGreaterThan(20);
    expect(body.them.plays.length).toBe(body.them.count);
    expect(body.choices).toHaveLength(3);
    const choices = body.choices as { choice: string; rate: { own: { known: number }; share: number } | null }[];
    const go = choices.find(({ choice }) => choice === 'go');
    expect(go?.rate?.own.known).toBeGreaterThan(0);
    const kick = choices.find(({ choice }) => choice === 'kick');
    expect(kick?.rate?.own.known).toBeGreaterThan(0);
    expect(kick?.rate?.share).toBeGreaterThan(0);
    expect(body.words).toMatch(/^(go|kick|punt); .*ours \d+ of \d+, field \d+ of \d+.* drives left .*guessed: /);
    expect(body.drivesLeft).toBeGreaterThan(1);
    expect(body.guesses).toContain('what a timeout saves');
    expect(body.words).toContain('it leaves you 1 behind');
  });
});

describe('fourth downs and the end of a game', () => {
  it.each(['fourth-down?distance=2&yardsToGoal=38', 'late-game?scoreDifference=-2&clockSeconds=30'])(
    'are tagged by what went in, and kept: %s',
    async (asked) => {
      const [event, us, them] = [
        await demo.idOf('event', 'weathervane-classic-2026'),
        await demo.idOf('player', 'OxbowFold'),
        await demo.idOf('player', 'GraniteMuffin'),
      ];
      const ask = (extra = '', held = '') =>
        demo.api
          .as(demo.clan)
          .get(`/v1/players/${us}/${asked}&opponentId=${them}&eventId=${event}${extra}`)
          .set('If-None-Match', held);
      const first = await ask();
      const tag = first.headers['etag'] ?? '';
      expect(tag).not.toBe('');
      expect((await ask()).body).toEqual(first.body);
      expect((await ask('', tag)).status).toBe(304);
      expect((await ask('&timeouts=2', tag)).status).toBe(200);
    },
  );
});

describe('late in a game of the demo league', () => {
  interface Weighed {
    readonly best: string | null;
    readonly chances: Readonly<Record<string, number>>;
    readonly stands: boolean;
  }
  const late = async (query: string) => {
    const [event, us, them] = [
      await demo.idOf('event', 'weathervane-classic-2026'),
      await demo.idOf('player', 'OxbowFold'),
      await demo.idOf('player', 'GraniteMuffin'),
    ];
    const path = `/v1/players/${us}/late-game?opponentId=${them}&eventId=${event}&${query}`;
    return (await demo.api.as(demo.clan).get(path)).body as {
      readonly words: string;
      readonly drivesLeft: number;
      readonly twoPoint: Weighed;
      readonly onside: Weighed;
      readonly clock: { readonly do: string; readonly kneelSeconds: number };
      readonly figures: Readonly<Record<string, { readonly own: { known: number }; readonly share: number }>>;
      readonly guesses: readonly string[];
    };
  };

  it('says what two points, an onside kick and the clock are worth by our own figures, and what is guessed', async () => {
    const { words, twoPoint, onside, figures, guesses, drivesLeft } = await late('scoreDifference=-2&clockSeconds=30');
    expect(drivesLeft).toBeLessThan(1);
    expect(twoPoint.best).toBe('two');
    expect(twoPoint.chances['two']).toBeGreaterThan(twoPoint.chances['kick'] ?? 1);
    expect(onside.best).toBe('onside');
    // Of our own drives some are charted, and both sides' shares are chances.
    expect(figures['touchdown']?.own.known).toBeGreaterThan(5);
    for (const { share } of Object.values(figures)) expect(share > 0 && share < 1).toBe(true);
    expect(guesses).toContain('that overtime is even');
    expect(guesses).toContain('how much of the clock runs between two snaps');
    expect(words).toMatch(/^clock: hurry; after a touchdown: two \(two wins \d+ %, kick \d+ %/);
  });

  it("runs the clock out by kneeling where the event's own run-off allows it", async () => {
    const ahead = 'scoreDifference=3&clockSeconds=80';
    expect((await late(`${ahead}&runOffSeconds=38`)).clock).toMatchObject({ do: 'kneel', kneelSeconds: 120 });
    const short = await late(`${ahead}&runOffSeconds=20`);
    expect(short.clock).toMatchObject({ do: 'burn', kneelSeconds: 66 });
    expect(short.guesses).not.toContain('how much of the clock runs between two snaps');
    expect((await late(`${ahead}&runOffSeconds=38&theirTimeouts=2`)).clock).toMatchObject({
      do: 'burn',
      kneelSeconds: 44,
    });
  });
});

describe('what the demo says when it is up', () => {
  it('names the report, and the card of the last match, which has been judged', async () => {
    const judged = await demo.judgedReport();
    expect(await demo.judgedReport()).toBe(judged);
    const ready = { key: demo.clan.key, rivalKey: demo.rival.key, reportId: demo.reportId };
    const said = demoAddresses(demo.url, ready, judged);
    const card = /^report card +(http\S+)$/m.exec(said)?.[1] ?? '';
    const { status, body } = await demo.api.as(demo.clan).get(card.slice(demo.url.length));
    expect({ status, body }).toMatchObject({ status: 200, body: { id: judged, awaited: null } });
    expect(body.games).toHaveLength(1);
    expect(body.scores.length).toBeGreaterThan(0);
    expect(demoAddresses(demo.url, ready, null)).not.toMatch(/report card/);
  });
});
