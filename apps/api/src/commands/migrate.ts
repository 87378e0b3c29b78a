import { inFolder, readSettings } from '../config/settings.js';
import { openDatabase } from '../database/open-database.js';
import { runCommand } from './run-command.js';

const USAGE = 'usage: npm run migrate\nBrings the database up to date without serving.';

/** Brings the database up to date without serving; the service does the same when it starts. */
await runCommand({ usage: USAGE, options: {} }, async () => {
  const database = await openDatabase(inFolder(readSettings(), 'main'), (line) => process.stdout.write(`${line}\n`));
  await database.close();
  process.stdout.write('The database is up to date.\n');
});
