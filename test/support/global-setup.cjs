const { mkdtempSync, chmodSync, readFileSync, rmSync } = require('node:fs');
const { tmpdir } = require('node:os');
const { join } = require('node:path');

/**
 * Gives a run a folder and starts nothing: the first test file that asks for a database starts the server (see
 * database-server.ts), so a run of pure domain tests has none. Plain JavaScript, since Jest loads this file without
 * resolving the project's own import names.
 */
module.exports = function globalSetup() {
  const folder = mkdtempSync(join(tmpdir(), 'roundbook-test-'));
  // The embedded server's account must be able to pass through.
  chmodSync(folder, 0o711);
  process.env.ROUNDBOOK_TEST_RUN = folder;

  // The net below the teardown, for a run that is interrupted: an embedded server must not outlive it.
  process.once('exit', () => cleanUp(folder));
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.once(signal, () => {
      cleanUp(folder);
      process.kill(process.pid, signal);
    });
  }
};

function cleanUp(folder) {
  try {
    // The server's own lock file: it is there even while a worker is still waiting for the server to be ready.
    const [pid] = readFileSync(join(folder, 'data', 'postgres', 'postmaster.pid'), 'utf8').split('\n');
    process.kill(Number(pid), 'SIGQUIT');
  } catch {
    // The teardown was here, or no server was started.
  }
  rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
}
