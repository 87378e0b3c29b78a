import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** A command as an operator runs it, from source, with nothing in its environment but what is given. */
export function command(
  name: string,
  environment: Readonly<Record<string, string>>,
  words: readonly string[] = [],
): Promise<{ stdout: string; stderr: string }> {
  const { PATH = '' } = process.env;
  return run(
    process.execPath,
    [
      '--conditions=source',
      '--import',
      '@swc-node/register/esm-register',
      `apps/api/src/commands/${name}.ts`,
      ...words,
    ],
    { env: { PATH, ...environment } },
  );
}
