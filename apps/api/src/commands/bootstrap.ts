import { readBootstrapSettings } from '../config/bootstrap-settings.js';
import { bootstrap, OWNER_ROLE, SERVICE_ROLE } from '../database/bootstrap.js';
import { runCommand } from './run-command.js';

const USAGE =
  'usage: npm run bootstrap\nMakes the two roles and the database; the settings name the server and its administrator.';

/** Makes the two roles and the database on a PostgreSQL of one's own, once, as its administrator. Safe to repeat. */
await runCommand({ usage: USAGE, options: {} }, async () => {
  const { adminUrl, database, passwords } = readBootstrapSettings();
  await bootstrap(adminUrl, database, passwords);
  process.stdout.write(`The roles ${OWNER_ROLE} and ${SERVICE_ROLE} and the database ${database} are ready.\n`);
});
