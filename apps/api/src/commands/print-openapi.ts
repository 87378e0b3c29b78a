import { readSettings } from '../config/settings.js';
import { createApp } from '../create-app.js';
import { openApiDocument } from '../documents.js';
import { runCommand } from './run-command.js';

/** No connection is made until somebody asks for data, so the address need not lead anywhere. */
const NOWHERE = 'postgres://nobody@127.0.0.1:1/none';

const USAGE = 'usage: print-openapi > FILE';

/** Prints the description of the API, for tools that read it from a file. */
await runCommand({ usage: USAGE, options: {} }, async () => {
  const app = await createApp({ ...readSettings({ LOG_LEVEL: 'error' }) }, NOWHERE);
  process.stdout.write(`${JSON.stringify(openApiDocument(app), null, 2)}\n`);
  await app.close();
});
