import { inFolder, readSettings } from '../config/settings.js';
import { openDatabase } from '../database/open-database.js';
import { runCommand } from './fail.js';

/** Brings the database up to date without serving; the service does the same when it starts. */
await runCommand(async () => {
  const database = await openDatabase(inFolder(readSettings(), 'main'), (line) => process.stdout.write(`${line}\n`));
  await database.close();
  process.stdout.write('The database is up to date.\n');
});
