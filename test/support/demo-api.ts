import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DEMO_STATE, DemoLeague } from '#api/commands/demo-league.js';
import { onceARun } from './once-a-run.js';
import { startTestApi, type TestApi } from './test-api.js';
import type { TestDatabaseOptions } from './test-database.js';

/** The service with the demo league in it, loaded as a person loads it. */
export interface DemoApi {
  readonly api: TestApi;
  readonly url: string;
  /** Of the clan whose league it is. */
  readonly clan: { readonly key: string };
  /** Of a clan that scouts some of the same players. */
  readonly rival: { readonly key: string };
  /** The report on the next opponent. */
  readonly reportId: string;
  /** The report on the last opponent, as things stood before that match: the one whose card the demo names. */
  judgedReport(): Promise<string | null>;
  /** Id of a record of the clan: a player by handle, an event by reference. */
  idOf(kind: 'player' | 'event', name: string): Promise<string>;
  close(): Promise<void>;
}

export async function startDemoApi(): Promise<DemoApi> {
  const { database, state } = await onceARun('demo', load);
  const { api, url, folder, league } = await startLeague({ copyOf: database });
  await writeFile(join(folder, DEMO_STATE), state);
  const { key, rivalKey, reportId } = await league.ready();
  const [clan, rival] = [{ key }, { key: rivalKey }];
  return {
    api,
    url,
    clan,
    rival,
    reportId,
    judgedReport: () => league.judgedReport(),
    idOf: async (kind, name) => {
      const { body } = await api.as(clan).get(`/v1/${kind}s?limit=200`);
      const items = body.items as { id: string; own: boolean; handle?: string; reference?: string }[];
      const found = items.find(({ own, handle, reference }) => own && (handle ?? reference) === name);
      if (found === undefined) throw new Error(`the demo league has no ${kind} ${name}`);
      return found.id;
    },
    close: async () => {
      await api.close();
      await rm(folder, { recursive: true });
    },
  };
}

interface StartedLeague {
  readonly api: TestApi;
  readonly url: string;
  readonly folder: string;
  readonly league: DemoLeague;
}

async function startLeague(options: TestDatabaseOptions): Promise<StartedLeague> {
  const api = await startTestApi({}, options);
  const folder = await mkdtemp(join(tmpdir(), 'demo-api-'));
  await api.app.listen(0, '127.0.0.1');
  const url = await api.app.getUrl();
  const { ownerUrl, serviceUrl } = api.database;
  const database = { ownerUrl, serviceUrl, folder, close: () => Promise.resolve() };
  const league = new DemoLeague(url, database, 'seeds-demo/data', 'OxbowFold', () => undefined);
  return { api, url, folder, league };
}

/** What the first start of the demo left: its database, to be copied, and what it saved for the next one. */
interface LoadedDemo {
  readonly database: string;
  readonly state: string;
}

/** Once a run, since it takes as long as many tests together: every file starts the demo once more, on a copy. */
async function load(): Promise<LoadedDemo> {
  const { api, folder, league } = await startLeague({});
  await league.ready();
  await league.judgedReport();
  const state = await readFile(join(folder, DEMO_STATE), 'utf8');
  await rm(folder, { recursive: true });
  await api.app.close();
  await api.database.leave();
  return { database: api.database.name, state };
}
