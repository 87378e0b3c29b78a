import { execFile } from 'node:child_process';
import { promisify } from 'node:util';

const run = promisify(execFile);

/** Under whom the embedded server runs; undefined for whoever runs the service. PostgreSQL refuses to run as root. */
export type ServerAccount = { readonly name: string; readonly uid: number; readonly gid: number } | undefined;

const NAME = 'postgres';

/** The account for the embedded server, created when the service runs as root and there is none. */
export async function serverAccount(): Promise<ServerAccount> {
  if (process.getuid?.() !== 0) return undefined;
  const found = await lookUp();
  if (found !== undefined) return found;
  try {
    await run('groupadd', ['--system', NAME]).catch(() => undefined); // it may be there without the user
    await run('useradd', ['--system', '--gid', NAME, '--no-create-home', NAME]);
  } catch (cause) {
    throw new Error(
      `PostgreSQL does not run as root, and a user "${NAME}" could not be created. ` +
        'Run the service as another user, or give DATABASE_URL and DATABASE_SERVICE_URL.',
      { cause },
    );
  }
  const created = await lookUp();
  if (created === undefined) throw new Error(`The user "${NAME}" was created but cannot be found.`);
  return created;
}

async function lookUp(): Promise<ServerAccount> {
  try {
    const [uid, gid] = await Promise.all([run('id', ['-u', NAME]), run('id', ['-g', NAME])]);
    return { name: NAME, uid: Number(uid.stdout), gid: Number(gid.stdout) };
  } catch {
    return undefined;
  }
}
