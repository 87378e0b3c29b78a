import { handOf } from '../support/http.js';
import { startDemoApi, type DemoApi } from '../support/demo-api.js';

// Questions 1 and 2 of a user, and the event in progress, on the demo league.

let demo: DemoApi;
let event: string;
let us: string;

beforeAll(async () => {
  demo = await startDemoApi();
  event = await demo.idOf('event', 'weathervane-classic-2026');
  us = await demo.idOf('player', 'OxbowFold');
}, 120_000);
afterAll(() => demo.close());

const get = (path: string, player = us) => demo.api.as(demo.clan).get(`/v1/events/${event}/${path}player=${player}`);

interface Opponent {
  readonly playerId: string;
  readonly handle: string;
  readonly probability: number;
  readonly rounds: readonly { readonly round: string; readonly probability: number }[];
}

interface Segment {
  readonly charter: number;
  readonly startsAfterMinutes: number;
  readonly minutes: number;
  readonly plays: number;
  readonly gameId: string;
  readonly what: string;
  readonly filmScope: { readonly offense: string; readonly downs: number[] | null; readonly quarters: number[] | null };
  readonly video: { readonly second: number | null } | null;
  readonly settles: readonly { readonly words: string }[];
  readonly shareOfGain: number;
}

async function opponentHandles(): Promise<string[]> {
  const { opponents }: { opponents: Opponent[] } = (await get('meeting-odds?')).body;
  return opponents.map(({ handle }) => handle);
}

async function matchId(round: number, position: number): Promise<string> {
  const { matches }: { matches: { id: string; round: number; position: number }[] } = (
    await demo.api.as(demo.clan).get(`/v1/events/${event}/bracket`)
  ).body;
  return matches.find((match) => match.round === round && match.position === position)?.id ?? '';
}

const enter = async (round: number, position: number, winner: 'home' | 'away' | null) =>
  handOf(demo.api, demo.clan).result(
    `/v1/events/${event}/matches/${await matchId(round, position)}`,
    winner === null ? {} : { winner, homeWins: winner === 'home' ? 1 : 0, awayWins: winner === 'away' ? 1 : 0 },
  );

describe('the event in progress', () => {
  it('answers with odds, which a corrected result changes', async () => {
    const { body } = await get('meeting-odds?');
    expect(body).toMatchObject({ method: 'exact', handle: 'OxbowFold' });
    const opponents: Opponent[] = body.opponents;
    expect(opponents[0]).toMatchObject({
      handle: 'GraniteMuffin',
      probability: 1,
      rounds: [{ round: 'quarter-final', probability: 1 }],
    });
    const inSemifinal = opponents.filter(({ rounds }) => rounds.some(({ round }) => round === 'semifinal'));
    expect(inSemifinal.map(({ handle }) => handle)).toEqual(['plumbline_q', 'FoxgloveFive']);

    // The quarter-final of the upper half that is over already went to its home player, or to the other one.
    const before = await opponentHandles();
    const upper = (await demo.api.as(demo.clan).get(`/v1/events/${event}/matches/${await matchId(2, 1)}`)).body;
    const homeWon = upper.winnerEntrantId === upper.homeEntrantId;
    const corrected = await enter(2, 1, homeWon ? 'away' : 'home');
    expect(corrected).toMatchObject({ status: 200, body: { movedMatchIds: [await matchId(3, 1)] } });
    const after = await opponentHandles();
    expect(after).not.toEqual(before);
    await enter(2, 1, homeWon ? 'home' : 'away');
    expect(await opponentHandles()).toEqual(before);
  });

  it('shows the way ahead as a drawing in the report', async () => {
    const { text } = await demo.api.as(demo.clan).get(`/v1/round-reports/${demo.reportId}`).set('Accept', 'text/html');
    expect(text).toContain('id="ahead"');
    expect(text).toContain('<h2>Who is next</h2>');
    expect(text).toMatch(/semifinal, played with \d+ %: plumbline_q \d+ %/);
  });
});

describe('"Semifinal in 20 minutes, opponent A or B: what do I do now?"', () => {
  let body: Record<string, never> & {
    opponents: (Opponent & {
      share: number;
      facts: string[];
      clips: { url: string | null }[];
      openings: string[];
      notKnown: string[];
    })[];
    changes: { words: string; against: string }[];
    plan: { fromMinute: number; minutes: number; words: string }[];
    others: number;
  };

  beforeAll(async () => {
    // We win our quarter-final; who comes out of the other one is open.
    const ours = (await demo.api.as(demo.clan).get(`/v1/events/${event}/bracket`)).body.matches as {
      round: number;
      position: number;
      home: string | null;
      away: string | null;
    }[];
    const match = ours.find(({ round, home, away }) => round === 2 && (home === 'OxbowFold' || away === 'OxbowFold'));
    expect((await enter(2, match?.position ?? 0, match?.home === 'OxbowFold' ? 'home' : 'away')).status).toBe(200);
    // As safe as can be: what holds whatever they do differs most from opponent to opponent.
    ({ body } = await get('next-opponents?minutes=20&lean=0&'));
  });
  afterAll(async () => {
    await enter(2, 4, null);
  });

  it('gives the odds of both, and for each at most five facts with counts', () => {
    expect(body).toMatchObject({ round: 'semifinal', certain: false, minutes: 20 });
    expect(body.opponents.map(({ handle }) => handle)).toEqual(['plumbline_q', 'FoxgloveFive']);
    expect(body.opponents.reduce((sum, { probability }) => sum + probability, body.others)).toBeCloseTo(1, 9);
    for (const { facts } of body.opponents) {
      expect(facts.length).toBeGreaterThan(0);
      expect(facts.length).toBeLessThanOrEqual(5);
      for (const fact of facts) expect(fact).toMatch(/\d+ of \d+/);
    }
  });

  it('gives at most ten clips, at most three changes with counts, and what is not known', () => {
    const clips = body.opponents.flatMap((opponent) => opponent.clips);
    expect(clips.length).toBeGreaterThan(0);
    expect(clips.length).toBeLessThanOrEqual(10);
    expect(clips.every(({ url }) => url?.includes('#t=') === true)).toBe(true);
    expect(body.changes.length).toBeGreaterThan(0);
    expect(body.changes.length).toBeLessThanOrEqual(3);
    for (const { words } of body.changes) {
      expect(words).toMatch(
        /^our (offense|defense) on .+: .+ in place of .+; \+0\.\d\d points a play if they stay; they: .+ \d+ of \d+/,
      );
      expect(words).not.toContain('+0.00');
    }
    for (const { openings, notKnown } of body.opponents) {
      for (const opening of openings)
        expect(opening).toMatch(/^(with the ball|without it), .+: .+ succeeded on \d+ of \d+/);
      expect(new Set(openings.map((words) => words.split(',')[0]))).toEqual(new Set(['with the ball', 'without it']));
      expect(notKnown.length).toBeGreaterThan(0);
      expect(notKnown.length).toBeLessThanOrEqual(4);
    }
  });

  it('changes what the call sheet against them marks as changed, and nothing where that marks nothing', async () => {
    const marked = async (opponentId: string, lean: number): Promise<string[]> => {
      const { body: read } = await demo.api
        .as(demo.clan)
        .get(`/v1/call-sheets?eventId=${event}&playerId=${us}&opponentId=${opponentId}&lean=${lean}`);
      const cells = [...read.sheet.offense.cells, ...read.sheet.defense.cells] as {
        title: string;
        change: object | null;
      }[];
      return cells.filter(({ change }) => change !== null).map(({ title }) => title);
    };
    for (const { words, against } of body.changes) {
      const titles = await marked(against, 0);
      expect(titles.some((title) => words.includes(` on ${title}: `))).toBe(true);
    }
    const bold: typeof body = (await get('next-opponents?minutes=20&lean=1&')).body;
    const [first, second] = bold.opponents;
    expect([...(await marked(first?.playerId ?? '', 1)), ...(await marked(second?.playerId ?? '', 1))]).toEqual([]);
    expect(bold.changes).toEqual([]);
    expect(bold.plan.at(-1)?.words).toBe('go through the base sheet: no change of it is worth making');
  });

  it('plans all of the minutes', () => {
    const last = body.plan.at(-1);
    expect(last?.words).toMatch(/^take in the (\d )?changes? to the sheet$/);
    expect((last?.fromMinute ?? 0) + (last?.minutes ?? 0)).toBeCloseTo(20, 9);
    expect(body.plan[0]?.words).toBe('read the facts on plumbline_q');
  });

  it('is in the round report as well, which is on the more probable one', async () => {
    const made = await demo.api.as(demo.clan).post('/v1/round-reports').send({ eventId: event, playerId: us });
    expect(made).toMatchObject({ status: 201, body: { opponent: 'plumbline_q', round: 'semifinal' } });
    expect(made.body.next).toMatchObject({ certain: false });
    expect(made.body.next.candidates).toHaveLength(2);
    const { text } = await demo.api
      .as(demo.clan)
      .get(`/v1/round-reports/${String(made.body.id)}`)
      .set('Accept', 'text/plain');
    expect(text).toContain('The opponent is still open');
    expect(text).toContain('If it is FoxgloveFive:');
  });
});

describe('"15 minutes and one of their games: what do I chart?"', () => {
  it('names segments and fields in order, with minutes, the second where known, and what each settles', async () => {
    const { status, body } = await get('charting-queue?minutes=15&');
    expect(status).toBe(200);
    const segments: Segment[] = body.segments;
    expect(segments.length).toBeGreaterThan(1);
    expect(segments.reduce((sum, { minutes }) => sum + minutes, 0)).toBeLessThanOrEqual(15.5);
    expect(body.leftUnknown).toBeLessThan(1);
    for (const { settles, video, plays } of segments) {
      expect(settles[0]?.words).toMatch(/known on \d+ snaps?, about [\d.]+ more/);
      expect(video).not.toBeNull();
      expect(plays).toBeGreaterThan(0);
    }
    expect(segments.reduce((sum, { shareOfGain }) => sum + shareOfGain, 0)).toBeCloseTo(1, 9);
  });

  it('is of the one game that there is film of, where that is said', async () => {
    const all: Segment[] = (await get('charting-queue?minutes=60&')).body.segments;
    const one = all.at(-1)?.gameId ?? '';
    const { body } = await get(`charting-queue?minutes=15&gameId=${one}&`);
    const segments: Segment[] = body.segments;
    expect(segments.length).toBeGreaterThan(0);
    for (const { gameId } of segments) expect(gameId).toBe(one);
    expect(body.notes).toEqual([]);
    const nobodys = await get('charting-queue?gameId=00000000-0000-4000-8000-000000000000&');
    expect(nobodys).toMatchObject({ status: 400, body: { errors: [{ field: 'gameId' }] } });
    expect(nobodys.body.errors[0].expected).toMatch(/^a game of \w+/);
  });

  it('is split among charters, and a result changes it', async () => {
    const alone: Segment[] = (await get('charting-queue?minutes=15&')).body.segments;
    const two: Segment[] = (await get('charting-queue?minutes=15&charters=2&')).body.segments;
    expect(new Set(two.map(({ charter }) => charter))).toEqual(new Set([1, 2]));
    expect(two.length).toBeGreaterThan(alone.length);
    const before = (await get('charting-queue?')).body.opponents;
    await enter(2, 3, 'away');
    expect((await get('charting-queue?')).body.opponents).not.toEqual(before);
    await enter(2, 3, null);
    expect((await get('charting-queue?')).body.opponents).toEqual(before);
  });

  it('honours the partial scope that was charted', async () => {
    const [first]: Segment[] = (await get('charting-queue?minutes=15&')).body.segments;
    const chart = await demo.api
      .as(demo.clan)
      .post('/v1/charts')
      .send({ gameId: first?.gameId, reference: 'third-downs', filmScope: first?.filmScope });
    expect(chart.status).toBe(201);
    const play = { offense: 'home', playType: 'scrimmage', down: 3, distance: 5, orderInGame: 1 };
    const added = await demo.api
      .as(demo.clan)
      .post(`/v1/charts/${String(chart.body.id)}/plays`)
      .send({ ...play, offense: first?.filmScope.offense });
    expect(added.status).toBe(201);
    const after: Segment[] = (await get('charting-queue?minutes=60&')).body.segments;
    const same = after.filter(
      ({ gameId, filmScope }) => gameId === first?.gameId && filmScope.offense === first.filmScope.offense,
    );
    expect(same.length).toBeGreaterThan(0);
    // What is left of that side of the game is asked for without those downs.
    for (const { filmScope } of same) expect(filmScope.downs).not.toContain(3);
    for (const { filmScope } of same) expect(filmScope.downs).not.toBeNull();
  });
});
