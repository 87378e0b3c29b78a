const { existsSync, readFileSync, readlinkSync, rmSync } = require('node:fs');
const { request } = require('node:http');
const { join } = require('node:path');
const { setTimeout: pause } = require('node:timers/promises');
const { Client } = require('pg');

const PATIENCE_MS = 20_000;

/** Ends what database-server.ts started for this run, and removes the run's folder. */
module.exports = async function globalTeardown() {
  const folder = process.env.ROUNDBOOK_TEST_RUN;
  const stateFile = join(folder, 'server.json');
  if (existsSync(stateFile)) {
    const state = JSON.parse(readFileSync(stateFile, 'utf8'));
    if (state.kind === 'given') await dropDatabases(state);
    if (state.kind === 'container') await removeContainer(state);
    if (state.kind === 'embedded') await stopServer(state);
  }
  rmSync(folder, { recursive: true, force: true });
};

async function dropDatabases({ adminUrl, template }) {
  const admin = new Client({ connectionString: adminUrl });
  await admin.connect();
  const { rows } = await admin.query('select datname from pg_database where starts_with(datname, $1)', [template]);
  for (const { datname } of rows) await admin.query(`drop database if exists "${datname}" with (force)`);
  await admin.end();
}

function removeContainer({ containerId, socketPath }) {
  return new Promise((resolve, reject) => {
    request({ socketPath, method: 'DELETE', path: `/containers/${containerId}?force=true&v=true` }, (answer) => {
      answer.resume().once('end', resolve);
    })
      .once('error', reject)
      .end();
  });
}

/** The data is thrown away, so the server need not write it out first. */
async function stopServer({ pid }) {
  const deadline = Date.now() + PATIENCE_MS;
  process.kill(pid, 'SIGQUIT');
  while (isRunning(pid)) {
    if (Date.now() > deadline) throw new Error(`The tests' database server (process ${pid}) does not stop.`);
    await pause(20);
  }
}

function isRunning(pid) {
  try {
    process.kill(pid, 0);
  } catch {
    return false;
  }
  try {
    // One that has ended but is not yet waited for has no working folder any more.
    readlinkSync(`/proc/${pid}/cwd`);
  } catch {
    return !existsSync('/proc/self');
  }
  return true;
}
