import type { TestClan } from './factories.js';
import { jsonLines, type TestApi } from './test-api.js';

type Records = readonly Readonly<Record<string, unknown>>[];

/** Brings records in as any client would; anything but success fails the test. */
export async function loadRecords(api: TestApi, by: Pick<TestClan, 'key'>, records: Records): Promise<void> {
  const { status, body } = await api
    .as(by)
    .post('/v1/imports')
    .set('Content-Type', 'application/x-ndjson')
    .send(jsonLines(records));
  expect({ status, body }).toMatchObject({ status: 201 });
}

/** Id of the player whom a clan knows by that handle; empty where there is none. */
export async function playerCalled(api: TestApi, by: Pick<TestClan, 'key'>, handle: string): Promise<string> {
  const { items } = (await api.as(by).get('/v1/players')).body as { items: { id: string; handle: string }[] };
  return items.find((player) => player.handle === handle)?.id ?? '';
}
