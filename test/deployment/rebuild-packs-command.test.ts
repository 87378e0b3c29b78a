import { unpackPlays } from '#domain/charting/packed-plays.js';
import type { PlayColumns } from '#domain/charting/play-columns.js';
import { command } from '../support/command.js';
import { aChart, aClan, aPlay, insert, type TestChart } from '../support/factories.js';
import { createTestDatabase, type TestDatabase } from '../support/test-database.js';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database.drop());

async function packOf(chart: TestChart): Promise<{ revision: number; plays: PlayColumns } | null> {
  const { rows } = await database.owner.query<{ revision: number; bytes: Buffer }>(
    'select revision, bytes from chart_pack where chart_id = $1',
    [chart.id],
  );
  const [row] = rows;
  return row === undefined
    ? null
    : { revision: row.revision, plays: unpackPlays(row.bytes, { chartId: chart.id, gameId: chart.game.id }) };
}

/** Number and down of every play in the packed copy. */
function downsIn(plays: PlayColumns | undefined): [number, number][] {
  const down = plays?.columns.get('down');
  if (plays === undefined || down === undefined || !('values' in down)) return [];
  return Array.from(plays.playNumber, (number, play) => [number, down.values[play] ?? -1]);
}

describe('npm run rebuild-packs', () => {
  it('writes the packed copy of every chart of every clan from its rows, whatever was there', async () => {
    const { owner } = database;
    const charts: TestChart[] = [];
    for (const clan of [await aClan(owner), await aClan(owner)]) {
      const without = await aChart(owner, clan, { row: { revision: 4 } });
      const wrong = await aChart(owner, clan, { row: { revision: 2 } });
      const own = { clan_id: clan.id, scope_id: clan.privateScopeId };
      await insert(owner, 'chart_pack', {
        ...{ ...own, chart_id: wrong.id, format: 1, revision: 1, plays: 9, bytes: Buffer.from('not a pack') },
      });
      for (const chart of [without, wrong]) {
        await aPlay(owner, clan, { chart, row: { down: 1 } });
        await aPlay(owner, clan, { chart, row: { down: 3 } });
      }
      expect(await packOf(without)).toBeNull();
      charts.push(without, wrong);
    }
    const urls = { DATABASE_URL: database.ownerUrl, DATABASE_SERVICE_URL: database.serviceUrl };
    for (const time of ['first', 'again']) {
      const { stdout, stderr } = await command('rebuild-packs', urls);
      expect([time, stdout, stderr]).toEqual([time, '4 packed copies written\n', '']);
      for (const [place, chart] of charts.entries()) {
        const pack = await packOf(chart);
        // The revision stays, since nothing that was charted changed.
        expect(pack?.revision).toBe(place % 2 === 0 ? 4 : 2);
        expect(downsIn(pack?.plays)).toEqual([
          [1, 1],
          [2, 3],
        ]);
      }
    }
  });
});
