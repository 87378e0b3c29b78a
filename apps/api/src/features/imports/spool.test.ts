import { spawnSync } from 'node:child_process';
import { access, mkdir, mkdtemp, readdir, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { openSpool, sweepSpools } from './spool.js';

let under: string;

beforeEach(async () => {
  under = await mkdtemp(join(tmpdir(), 'spool-test-'));
});
afterEach(() => rm(under, { recursive: true, force: true }));

/** A process that has ended, and was waited for. */
function endedProcess(): number {
  return spawnSync(process.execPath, ['--version']).pid;
}

/** The name of a spool of ours, as another process would have made it. */
async function nameOf(change: { pid?: number; started?: string; host?: string }): Promise<string> {
  const spool = await openSpool(under);
  const [, , pid = '', started = '', ...rest] = basename(spool.folder).split('-');
  const unique = rest.pop() ?? '';
  await spool.remove();
  const { host = rest.join('-') } = change;
  return `roundbook-import-${String(change.pid ?? pid)}-${change.started ?? started}-${host}-${unique}`;
}

describe('folders of imports', () => {
  it('are gone with their import', async () => {
    const spool = await openSpool(under);
    await writeFile(join(spool.folder, 'body'), 'x');
    await spool.remove();
    expect(await readdir(under)).toEqual([]);
  });

  it('that a killed process left are swept, with what is in them', async () => {
    const left = await nameOf({ pid: endedProcess() });
    await mkdir(join(under, left));
    await writeFile(join(under, left, 'body'), 'x');
    expect(await sweepSpools(under)).toEqual([left]);
    expect(await readdir(under)).toEqual([]);
  });

  it('of a process whose number was given again are swept', async () => {
    const left = await nameOf({ started: '1' });
    await mkdir(join(under, left));
    // Only Linux tells when a process started; elsewhere the number alone has to do.
    expect(await sweepSpools(under)).toEqual(process.platform === 'linux' ? [left] : []);
  });

  it('of a running process, of another machine, or not of this shape, stay', async () => {
    const spool = await openSpool(under);
    const pid = endedProcess();
    const kept = [
      basename(spool.folder),
      await nameOf({ pid, host: 'elsewhere' }),
      'roundbook-import-abc123',
      `somebody-else-${pid}`,
    ];
    for (const name of kept.slice(1)) await mkdir(join(under, name));
    expect(await sweepSpools(under)).toEqual([]);
    expect((await readdir(under)).sort()).toEqual([...kept].sort());
  });

  it('are not followed through a link', async () => {
    const elsewhere = join(under, 'elsewhere');
    await mkdir(elsewhere);
    await symlink(elsewhere, join(under, await nameOf({ pid: endedProcess() })));
    expect(await sweepSpools(under)).toEqual([]);
    await expect(access(elsewhere)).resolves.toBeUndefined();
  });
});
