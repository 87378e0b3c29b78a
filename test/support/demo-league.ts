import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { aClan, type TestClan } from './factories.js';
import { handOf } from './http.js';
import type { TestApi } from './test-api.js';

const FOLDER = 'seeds-demo/data';

/** The demo league as our clan has it, and what goes by which name. */
export interface DemoClan {
  readonly clan: TestClan;
  /** Ids by handle. */
  readonly players: ReadonlyMap<string, string>;
}

/** Loads the demo league the way any client would: the organizer's archive, published, then our clan's files. */
export async function loadDemoLeague(api: TestApi): Promise<DemoClan> {
  const names = (await readdir(FOLDER)).filter((name) => name.endsWith('.jsonl')).sort();
  const [organizer, clan] = [await aClan(api.database.owner), await aClan(api.database.owner)];
  const load = async (into: TestClan, start: string): Promise<void> => {
    for (const name of names.filter((file) => file.startsWith(start))) {
      const response = await api
        .as(into)
        .post('/v1/imports')
        .set('Content-Type', 'application/x-ndjson')
        .send(await readFile(join(FOLDER, name), 'utf8'));
      if (response.status !== 201) throw new Error(`${name} was answered ${response.status}: ${response.text}`);
    }
  };
  await load(organizer, 'archive');
  const { items: events } = (await api.as(organizer).get('/v1/events')).body as { items: { id: string }[] };
  for (const { id } of events) await handOf(api, organizer).show(`/v1/events/${id}`, 'public');
  await load(clan, 'clan');
  const { items } = (await api.as(clan).get('/v1/players?limit=200')).body as {
    items: { id: string; handle: string }[];
  };
  return { clan, players: new Map(items.map(({ id, handle }) => [handle, id])) };
}
