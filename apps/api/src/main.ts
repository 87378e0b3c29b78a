import { inFolder, readSettings } from './config/settings.js';
import { runCommand } from './commands/run-command.js';
import { createApp } from './create-app.js';
import { openDatabase } from './database/open-database.js';
import { onStop } from './on-stop.js';

const USAGE = 'usage: npm start\nServes the API and its pages; settings are read from the environment, see the README.';

/** Serves for real use: the database that the settings name, or an embedded one that keeps its data. */
await runCommand({ usage: USAGE, options: {} }, async () => {
  const settings = readSettings();
  const database = await openDatabase(inFolder(settings, 'main'), (line) => process.stdout.write(`${line}\n`));
  const app = await createApp(settings, database.serviceUrl);
  onStop(async () => {
    await app.close();
    await database.close();
  });
  await app.listen(settings.port, settings.host);
  const url = await app.getUrl();
  process.stdout.write(`Roundbook answers at ${url}, with its documentation at ${url}/docs\n`);
});
