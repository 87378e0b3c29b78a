import { connected } from '#api/database/connected.js';
import { queryingOf } from '#api/database/querying.js';
import { ChartPacksRepository } from '#api/features/charts/chart-packs.repository.js';
import { PUBLISH, WITHDRAW, as } from '../support/as-clan.js';
import { aClan, type TestClan } from '../support/factories.js';
import { handOf } from '../support/http.js';
import { newIds, populate } from '../support/populate.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

let api: TestApi;

beforeAll(async () => {
  api = await startTestApi();
});
afterAll(() => api.close());

/** Ids are made by the service, so only SQL can give a row the id that another clan's row has. */
it('a clan that gives its rows the ids of public ones reads its own, and changes nothing for anybody', async () => {
  const { owner, ownerUrl } = api.database;
  const [archive, copyist, reader] = [await aClan(owner), await aClan(owner), await aClan(owner)];
  const ids = newIds();
  const filled = async (clan: TestClan, yards: number): Promise<void> => {
    await populate(owner, clan, ids);
    await owner.query('update play set yards_gained = $2, call_family = null where clan_id = $1', [clan.id, yards]);
    const chart = { clanId: clan.id, chartId: ids.chart, gameId: ids.game };
    await connected(ownerUrl, (client) => new ChartPacksRepository().rebuild(queryingOf(client), chart));
  };
  await filled(archive, 3);
  await as(api.database, archive, PUBLISH, ['event', ids.event]);
  const profile = async (clan: TestClan) => {
    const { status, body } = await handOf(api, clan).get(`/v1/players/${ids.home}/profile?side=offense`);
    return status === 200 ? { snaps: body.snaps, yards: body.situations[0].results.yards?.mean } : status;
  };
  const before = await profile(reader);
  expect(before).toEqual({ snaps: 1, yards: 3 });
  await filled(copyist, 40);
  // Columns of the public chart are kept by now, of the same id and revision.
  expect(await profile(copyist)).toEqual({ snaps: 1, yards: 40 });
  // The reader has never heard of the copy.
  expect(await profile(reader)).toEqual(before);
  const plays = async (clan: TestClan) =>
    ((await handOf(api, clan).get(`/v1/charts/${ids.chart}/plays/1`)).body as { yardsGained: number }).yardsGained;
  expect([await plays(archive), await plays(reader)]).toEqual([3, 3]);
  const removed = await handOf(api, copyist).delete(`/v1/games/${ids.game}`);
  expect(removed.status).toBe(204);
  expect([await plays(archive), await plays(reader)]).toEqual([3, 3]);
  await as(api.database, archive, WITHDRAW, ['event', ids.event]);
  // What is kept for the archive's own use is nothing to somebody who has lost sight of it.
  expect(await profile(archive)).toEqual(before);
  expect(await profile(reader)).toBe(404);
});
