import { readSettings } from '../config/settings.js';
import { createApp } from '../create-app.js';
import { openApiDocument } from '../documents.js';
import { rolesPage } from '../openapi/roles-page.js';
import { runCommand } from './run-command.js';

const USAGE = 'usage: print-roles-page > FILE';

/** Prints docs/reference/roles.md, whose one source is the API's description. Nobody asks for data. */
await runCommand({ usage: USAGE, options: {} }, async () => {
  const app = await createApp(readSettings({ LOG_LEVEL: 'error' }), 'postgres://nobody@127.0.0.1:1/none');
  process.stdout.write(rolesPage(openApiDocument(app)));
  await app.close();
});
