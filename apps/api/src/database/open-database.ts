import { mkdir } from 'node:fs/promises';
import type { Settings } from '../config/settings.js';
import type { DatabaseUrls } from './bootstrap.js';
import { FolderInUse } from './data-folder.js';
import { joinServer, startEmbeddedServer } from './embedded-server.js';
import { migrate } from './migrate.js';

export interface OpenDatabase extends DatabaseUrls {
  /** Where this data's own files are; not the folder asked for where the server's account could not reach that. */
  readonly folder: string;
  /** Stops the server, if it is ours. To be called after the last request. */
  close(): Promise<void>;
}

/** The database that the settings name or, without one, an embedded server; up to date in either case. */
export async function openDatabase(settings: Settings, log: (line: string) => void): Promise<OpenDatabase> {
  const database = await find(settings, log);
  try {
    const { migrations } = await migrate(database.ownerUrl);
    for (const name of migrations) log(`migrated: ${name}`);
    return database;
  } catch (error) {
    await database.close();
    throw error;
  }
}

/** The same for a command: where a running service has the embedded server already, that one is used and left alone. */
export async function joinDatabase(settings: Settings, log: (line: string) => void): Promise<OpenDatabase> {
  try {
    return await openDatabase(settings, log);
  } catch (error) {
    if (!(error instanceof FolderInUse)) throw error;
    const { dataFolder } = error;
    const urls = await joinServer(dataFolder);
    if (urls === null) throw error;
    return { ...urls, folder: dataFolder, close: () => Promise.resolve() };
  }
}

async function find(settings: Settings, log: (line: string) => void): Promise<OpenDatabase> {
  if (settings.database.kind === 'given') {
    const { ownerUrl, serviceUrl } = settings.database;
    await mkdir(settings.dataFolder, { recursive: true });
    return { ownerUrl, serviceUrl, folder: settings.dataFolder, close: () => Promise.resolve() };
  }
  const server = await startEmbeddedServer({
    dataFolder: settings.dataFolder,
    mayRelocate: !settings.dataFolderChosen,
    log,
  });
  const { ownerUrl, serviceUrl, dataFolder } = server;
  return { ownerUrl, serviceUrl, folder: dataFolder, close: () => server.stop() };
}
