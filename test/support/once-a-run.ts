import { existsSync } from 'node:fs';
import { mkdir, readFile, rename, rmdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

export const MAKING_PATIENCE_MS = 180_000;

/** The folder of this test run, which all of its workers share. */
export function runFolder(): string {
  const folder = process.env['ROUNDBOOK_TEST_RUN'];
  if (folder === undefined) throw new Error('jest.config.js must name test/support/global-setup.cjs as globalSetup');
  return folder;
}

/**
 * What is made once for a whole test run, by whichever worker is first to need it, and kept as a file for all to read.
 *
 * @param name - of the file, without an ending
 * @param make - makes it; what it returns must come back the same from JSON
 */
export async function onceARun<Made>(name: string, make: () => Made | Promise<Made>): Promise<Made> {
  const file = join(runFolder(), `${name}.json`);
  const making = join(runFolder(), `${name}.making`);
  const deadline = Date.now() + MAKING_PATIENCE_MS;
  while (!existsSync(file)) {
    if (Date.now() > deadline) throw new Error(`${name} was not made in time by another worker`);
    // A folder is made by exactly one of those that try.
    const mine = await mkdir(making).then(
      () => true,
      () => false,
    );
    if (!mine) {
      await pause(50);
      continue;
    }
    try {
      if (existsSync(file)) break;
      await writeFile(`${file}.new`, JSON.stringify(await make()));
      await rename(`${file}.new`, file);
    } finally {
      await rmdir(making);
    }
  }
  return JSON.parse(await readFile(file, 'utf8')) as Made;
}
