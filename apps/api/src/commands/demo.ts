import { parseArgs } from 'node:util';
import { inFolder, readSettings } from '../config/settings.js';
import { createApp } from '../create-app.js';
import { openDatabase } from '../database/open-database.js';
import { onStop } from '../on-stop.js';
import { demoAddresses } from './demo-addresses.js';
import { DemoLeague } from './demo-league.js';
import { CommandError, runCommand } from './fail.js';

/** Starts everything on an invented league, prints the report on the next opponent, and stays up. */
await runCommand(async () => {
  const { values } = parseArgs({
    options: { data: { type: 'string' }, player: { type: 'string' }, once: { type: 'boolean', default: false } },
  });
  const { data, player, once } = values;
  if (data === undefined || player === undefined)
    throw new CommandError('usage: demo --data FOLDER --player HANDLE [--once]');
  const settings = readSettings();
  const database = await openDatabase(inFolder(settings, 'demo'), progress);
  const app = await createApp({ ...settings, logLevel: 'warn' }, database.serviceUrl);
  const close = async (): Promise<void> => {
    await app.close();
    await database.close();
  };
  onStop(close);
  try {
    await app.listen(once ? 0 : settings.port, settings.host);
    const url = await app.getUrl();
    const demo = new DemoLeague(url, database, data, player, progress);
    const ready = await demo.ready();
    process.stdout.write(`\n${await demo.report(ready.key, ready.reportId)}\n`);
    if (once) {
      await close();
      return;
    }
    process.stdout.write(demoAddresses(url, ready, await demo.judgedReport()));
  } catch (error) {
    await close();
    throw error;
  }
});

function progress(line: string): void {
  process.stdout.write(`${line}\n`);
}
