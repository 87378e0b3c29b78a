import { inFolder, readSettings } from '../config/settings.js';
import { createApp } from '../create-app.js';
import { openDatabase } from '../database/open-database.js';
import { onStop } from '../on-stop.js';
import { demoAddresses } from './demo-addresses.js';
import { DemoLeague } from './demo-league.js';
import { CommandError, runCommand } from './run-command.js';

const USAGE = `usage: npm run demo
Loads an invented league, prints the report on the next opponent, and serves until Ctrl-C.
  --once           ends after the report
  --data FOLDER    of the league
  --player HANDLE  whose next opponent the report is on`;
const OPTIONS = {
  data: { type: 'string' },
  player: { type: 'string' },
  once: { type: 'boolean', default: false },
} as const;

/** Starts everything on an invented league, prints the report on the next opponent, and stays up. */
await runCommand({ usage: USAGE, options: OPTIONS }, async ({ values: { data, player, once } }) => {
  if (data === undefined || player === undefined) throw new CommandError(USAGE);
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
