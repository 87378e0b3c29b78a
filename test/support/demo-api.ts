import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DemoLeague } from '#api/commands/demo-league.js';
import { startTestApi, type TestApi } from './test-api.js';

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
  const api = await startTestApi();
  const folder = await mkdtemp(join(tmpdir(), 'demo-api-'));
  await api.app.listen(0, '127.0.0.1');
  const url = await api.app.getUrl();
  const { ownerUrl, serviceUrl } = api.database;
  const database = { ownerUrl, serviceUrl, folder, close: () => Promise.resolve() };
  const league = new DemoLeague(url, database, 'seeds-demo/data', 'OxbowFold', () => undefined);
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
