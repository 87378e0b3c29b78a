import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

/**
 * Where a program is that the tests need and npm does not bring.
 *
 * @param names - any of which will do
 * @throws Error saying what to install: a test that is skipped for want of a program proves nothing
 */
export function tool(names: readonly string[], debianPackage: string): string {
  for (const folder of (process.env['PATH'] ?? '').split(delimiter)) {
    for (const name of names) {
      const path = join(folder, name);
      try {
        accessSync(path, constants.X_OK);
        return path;
      } catch {
        // the next one
      }
    }
  }
  throw new Error(
    `These tests need ${names.join(' or ')} on the PATH. On Debian: apt-get install ${debianPackage}; elsewhere install it as your system does.`,
  );
}
