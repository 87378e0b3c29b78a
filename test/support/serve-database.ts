import { startEmbeddedServer } from '#api/database/embedded-server.js';

/** A process of its own with an embedded server, for the tests of how such a process may end. */
const [dataFolder = '', ending = ''] = process.argv.slice(2);
const server = await startEmbeddedServer({ dataFolder, durable: false });
process.stdout.write(`${String(server.pid)}\n`);

if (ending === 'exit') process.exit(3);
if (ending === 'throw') throw new Error('nobody catches this');
if (ending === 'own handler') {
  // As the service does: its own order of stopping, requests first.
  process.on('SIGTERM', () => {
    void server.stop().then(() => process.exit(0));
  });
}
