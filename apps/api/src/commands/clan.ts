import { inFolder, readSettings } from '../config/settings.js';
import { createClan } from '../database/create-clan.js';
import { joinDatabase } from '../database/open-database.js';
import { CommandError, runCommand } from './run-command.js';

const USAGE = 'usage: npm run clan -- create "Name of the clan"';

/** Makes a clan and prints its first key, which is stored only as a digest and can never be shown again. */
await runCommand({ usage: USAGE, options: {}, takesWords: true }, async ({ positionals }) => {
  const [command, name] = positionals;
  if (command !== 'create' || name === undefined || name.trim() === '') throw new CommandError(USAGE);
  const database = await joinDatabase(inFolder(readSettings(), 'main'), () => undefined);
  try {
    const { clanId, key } = await createClan(database.ownerUrl, name.trim());
    process.stdout.write(`clan ${clanId}\nkey  ${key}\n\nKeep the key: it is not shown again.\n`);
  } finally {
    await database.close();
  }
});
