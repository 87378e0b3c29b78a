import { readSettings } from '../config/settings.js';
import { createApp } from '../create-app.js';
import { openApiDocument } from '../documents.js';
import { runCommand } from './fail.js';

/** No connection is made until somebody asks for data, so the address need not lead anywhere. */
const NOWHERE = 'postgres://nobody@127.0.0.1:1/none';

/** Prints the description of the API, for tools that read it from a file. */
await runCommand(async () => {
  const app = await createApp({ ...readSettings({ LOG_LEVEL: 'error' }) }, NOWHERE);
  process.stdout.write(`${JSON.stringify(openApiDocument(app), null, 2)}\n`);
  await app.close();
});
