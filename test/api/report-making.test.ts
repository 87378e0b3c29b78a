import { ForecastFreezing } from '#api/features/round-reports/forecast-freezing.js';
import { aClan, type TestClan } from '../support/factories.js';
import { loadRecords } from '../support/load-records.js';
import { aGameRecord, aPlayRecord, TWO_PLAYERS } from '../support/small-league.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;
beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());
afterEach(() => jest.restoreAllMocks());

interface Wanted {
  readonly clan: TestClan;
  readonly body: { readonly eventId: string; readonly playerId: string };
}

async function somebodyToScout(): Promise<Wanted> {
  const clan = await aClan(api.database.owner);
  await loadRecords(api, clan, [...TWO_PLAYERS, aGameRecord(), aPlayRecord()]);
  const events = await api.as(clan).get('/v1/events');
  const players = (await api.as(clan).get('/v1/players')).body.items as { id: string; handle: string }[];
  const playerId = players.find(({ handle }) => handle === 'Brass Heron')?.id ?? '';
  return { clan, body: { eventId: events.body.items[0].id, playerId } };
}

async function openTransactions(): Promise<number> {
  const { rows } = await api.database.owner.query<{ open: number }>(
    `select count(*)::int as open from pg_stat_activity
      where datname = current_database() and usename = 'roundbook_service' and xact_start is not null`,
  );
  return rows[0]?.open ?? -1;
}

const reportsOf = async ({ clan }: Wanted): Promise<number> => {
  const { rows } = await api.database.owner.query<{ kept: number }>(
    'select count(*)::int as kept from round_report where clan_id = $1',
    [clan.id],
  );
  return rows[0]?.kept ?? -1;
};

describe('making a report', () => {
  it('waits for its forecast without a transaction, and is kept once that is there', async () => {
    const wanted = await somebodyToScout();
    const seen: [transactions: number, reports: number][] = [];
    jest.spyOn(api.app.get(ForecastFreezing, { strict: false }), 'freeze').mockImplementation(async () => {
      // The rest of the report is worked out meanwhile, in the transaction that this was asked from.
      while ((await openTransactions()) > 0) await new Promise(setImmediate);
      seen.push([await openTransactions(), await reportsOf(wanted)]);
      return [];
    });
    const made = await api.as(wanted.clan).post('/v1/round-reports').send(wanted.body);
    expect(made.status).toBe(201);
    expect(seen).toEqual([[0, 0]]);
    expect(await reportsOf(wanted)).toBe(1);
  });

  it('makes one report for one idempotency key, were the requests to come together or one after the other', async () => {
    const wanted = await somebodyToScout();
    const send = () =>
      api.as(wanted.clan).post('/v1/round-reports').set('Idempotency-Key', 'semifinal').send(wanted.body);
    const together = await Promise.all([send(), send()]);
    const later = await send();
    const answers = [...together, later];
    expect(answers.map(({ status }) => status)).toEqual([201, 201, 201]);
    expect(new Set(answers.map(({ body }) => (body as { id: string }).id)).size).toBe(1);
    expect(await reportsOf(wanted)).toBe(1);
    const other = await api
      .as(wanted.clan)
      .post('/v1/round-reports')
      .set('Idempotency-Key', 'semifinal')
      .send({ eventId: wanted.body.eventId, opponentId: wanted.body.playerId });
    expect(other).toMatchObject({ status: 422, body: { code: 'request.key_reused' } });
  });
});
