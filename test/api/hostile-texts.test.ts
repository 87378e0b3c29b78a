import { aClan, type TestClan } from '../support/factories.js';
import { aGameRecord, aPlayRecord, TWO_PLAYERS } from '../support/small-league.js';
import { loadRecords } from '../support/load-records.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

const HOSTILE = [
  `<script>alert(1)</script>`,
  `"><img src=x onerror=alert(1)>`,
  `' onmouseover='alert(1)`,
  `=HYPERLINK("https://evil.example")`,
  `+SUM(1,1)`,
  `@cmd`,
  `-1+cmd`,
  `javascript:alert(1)`,
];

let api: TestApi;
let clan: TestClan;

beforeAll(async () => {
  api = await startTestApi();
});
beforeEach(async () => {
  clan = await aClan(api.database.owner);
});
afterAll(() => api.close());

/** A report in which every text that people write is this one. */
async function aReportFullOf(text: string): Promise<string> {
  const renamed = (records: readonly Readonly<Record<string, unknown>>[]) =>
    JSON.parse(JSON.stringify(records).replaceAll('"Mossback"', JSON.stringify(text))) as Record<string, unknown>[];
  const plays = Array.from({ length: 12 }, (_, at) =>
    aPlayRecord({
      ...{ order: at + 1, down: 1, distance: 10, yardsToGoal: 60, snapSecond: 30 * (at + 1), note: text },
      ...{ callFamily: 'run', snapResult: 'rushed', yardsGained: 5 },
    }),
  );
  const records = renamed([...TWO_PLAYERS, aGameRecord(), ...plays]).map((record) =>
    record['record'] === 'event' ? { ...record, name: text } : record,
  );
  await loadRecords(api, clan, records);
  const events = await api.as(clan).get('/v1/events');
  const players = await api.as(clan).get('/v1/players');
  const opponent = (players.body.items as { id: string; handle: string }[]).find(({ handle }) => handle === text);
  const made = await api
    .as(clan)
    .post('/v1/round-reports')
    .send({ eventId: events.body.items[0].id, opponentId: opponent?.id });
  expect(made).toMatchObject({ status: 201, body: { opponent: text } });
  return made.headers['location'] ?? '';
}

it.each(HOSTILE)('%s is told as text in pages and sheets', async (text) => {
  const report = await aReportFullOf(text);
  for (const path of [report, `${report}/film`]) {
    const page = await api.as(clan).get(path).set('Accept', 'text/html');
    expect(page.status).toBe(200);
    // It is there, and where it has letters that mean something in HTML, never as they are.
    expect(page.text).toContain(text.slice(-6, -3).replaceAll('"', '&quot;').replaceAll("'", '&#39;'));
    if (/[<>"']/.test(text)) expect(page.text).not.toContain(text);
    expect(page.text).not.toMatch(/<script|<img|\son\w+=["']|href=["']?javascript:/i);
    expect(page.headers['content-security-policy']).toContain("default-src 'none'");
  }
  const { body } = await api.as(clan).get(report);
  const player = `/v1/players/${(body as { playerId: string }).playerId}`;
  for (const path of [report, `${player}/profile`, `${player}/tells`]) {
    const sheet = await api.as(clan).get(path).set('Accept', 'text/csv');
    expect(sheet.status).toBe(200);
    const cells = sheet.text.split(/\r\n|,/).map((cell) => cell.replace(/^"/, ''));
    expect(cells.filter((cell) => /^[=+@\t\r]/.test(cell) || /^-[^\d.]/.test(cell))).toEqual([]);
  }
});
