import { createHash, randomUUID } from 'node:crypto';
import { vttCues } from '#api/rendering/testing/vtt-cues.js';
import { aClan, type TestClan } from '../support/factories.js';
import { aGameRecord, aPlayRecord, TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
let clan: TestClan;
let reportPath: string;
let gameId: string;

/** Mossback's offense on film from second 30, in a video that begins five seconds earlier; a report on Mossback. */
beforeAll(async () => {
  api = await startTestApi();
  clan = await aClan(api.database.owner);
  const plays = Array.from({ length: 12 }, (_, at) =>
    aPlayRecord({
      ...{ order: at + 1, down: 1, distance: 10, yardsToGoal: 60, snapSecond: 30 * (at + 1) },
      ...{ callFamily: at % 3 === 0 ? 'run' : 'dropback pass', snapResult: 'complete', yardsGained: 5 },
    }),
  );
  const scrimmage = aGameRecord({ importance: 'scrimmage', homeScore: 7, awayScore: 10 });
  await loadRecords(api, clan, [...TWO_PLAYERS, scrimmage, ...plays]);
  const events = await api.as(clan).get('/v1/events');
  const players = await api.as(clan).get('/v1/players');
  const items: { id: string; handle: string }[] = players.body.items;
  const made = await api
    .as(clan)
    .post('/v1/round-reports')
    .send({ eventId: events.body.items[0].id, playerId: items.find(({ handle }) => handle === 'Brass Heron')?.id });
  reportPath = made.headers['location'] ?? '';
  gameId = made.body.sample.charts[0].gameId;
});
afterAll(() => api.close());

const read = (path: string, type: string) => api.as(clan).get(path).set('Accept', type);

describe('a report as a page', () => {
  it('allows its own style by its hash and nothing else', async () => {
    const { status, headers, text } = await read(reportPath, 'text/html');
    expect(status).toBe(200);
    expect(headers['content-type']).toBe('text/html; charset=utf-8');
    expect(headers['vary']).toContain('Accept');
    const [, style = ''] = /<style>([^]*?)<\/style>/.exec(text) ?? [];
    const hash = createHash('sha256').update(style).digest('base64');
    expect(headers['content-security-policy']).toBe(
      `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`,
    );
  });

  it('is what a browser gets, while a program that does not care gets JSON', async () => {
    const browser = await read(reportPath, 'text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8');
    expect(browser.headers['content-type']).toMatch(/^text\/html/);
    const program = await read(reportPath, '*/*');
    expect(program.headers['content-type']).toMatch(/^application\/json/);
  });

  it('has the way through the event: games outside the bracket, then the match to be played', async () => {
    const { text } = await read(reportPath, 'text/html');
    expect(text).toContain('scrimmage: beat Brass Heron 10-7; final: meets Brass Heron.');
  });

  it('knows A4 and Letter and no other paper', async () => {
    expect((await read(`${reportPath}?paper=letter`, 'text/html')).text).toContain('@page { size: letter; }');
    expect((await read(`${reportPath}?paper=a5`, 'text/html')).status).toBe(400);
  });

  it('is not for another clan', async () => {
    const other = await aClan(api.database.owner);
    for (const path of [reportPath, `${reportPath}/film`]) {
      const { status } = await api.as(other).get(path).set('Accept', 'text/html');
      expect(status).toBe(404);
    }
  });
});

describe('a report as CSV', () => {
  it('has a row a share and is kept as a file', async () => {
    const { headers, text } = await read(reportPath, 'text/csv');
    expect(headers['content-type']).toBe('text/csv; charset=utf-8');
    expect(headers['content-disposition']).toMatch(/^attachment; filename=round-report-[0-9a-f-]+\.csv$/);
    expect(text).toMatch(/^claimId,side,situation,/);
    expect(text).toMatch(
      /\r\noffense\/all-snaps\/called\/pass,offense,all snaps,run or pass called,pass,8,12,12,1,1,0\.6667,/,
    );
  });
});

describe('the film of a report', () => {
  it('as JSON leads to the second of each video', async () => {
    const { body } = await read(`${reportPath}/film`, 'application/json');
    expect(body.film.length).toBeGreaterThan(0);
    for (const entry of body.film) {
      // The video begins five seconds before the charted film.
      expect(entry.second).toBe(30 * entry.playNumber + 5);
      expect(entry.address).toBe(`https://video.example/pond-1#t=${entry.second}`);
      expect(entry.game).toBe('Brass Heron - Mossback, Pond Cup, 2026-03-01');
    }
  });

  it('as a WebVTT track has a cue for each of its plays', async () => {
    const { headers, text } = await read(`${reportPath}/film?game=${gameId}`, 'text/vtt');
    expect(headers['content-type']).toBe('text/vtt; charset=utf-8');
    const { body } = await read(`${reportPath}/film`, 'application/json');
    const cues = vttCues(text).map(({ id, from }) => ({ rank: Number(id), second: from }));
    const film: { rank: number; second: number }[] = body.film;
    const picks = film.map(({ rank, second }) => ({ rank, second }));
    expect(cues.sort((a, b) => a.rank - b.rank)).toEqual(picks);
  });

  it('of a game that is not in it is empty', async () => {
    const { body } = await read(`${reportPath}/film?game=${randomUUID()}`, 'application/json');
    expect(body).toEqual({ film: [] });
  });

  it('cannot be had as anything else', async () => {
    const { status, body } = await read(`${reportPath}/film`, 'image/png');
    expect(status).toBe(406);
    expect(body.code).toBe('request.not_acceptable');
  });
});
