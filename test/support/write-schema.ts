import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connected } from '#api/database/connected.js';
import { startEmbeddedServer } from '#api/database/embedded-server.js';
import { migrate } from '#api/database/migrate.js';
import { dumpSchema } from '#api/database/schema-dump.js';

/** Writes migrations/schema.sql anew, from a database that is made for it and thrown away. Run after a new migration. */
const folder = await mkdtemp(join(tmpdir(), 'roundbook-schema-'));
const server = await startEmbeddedServer({ dataFolder: folder, durable: false });
try {
  await migrate(server.ownerUrl);
  await writeFile('migrations/schema.sql', await connected(server.ownerUrl, dumpSchema));
} finally {
  await server.stop();
  await rm(folder, { recursive: true, force: true });
}
