import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

// The description of the API knows schemas by the names of their classes alone: of two of one name the later would
// silently stand for both.
it('every class of the API that is a schema has a name of its own', () => {
  const folder = join(import.meta.dirname, '..');
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.dto.ts'))
    .flatMap((file) => [...readFileSync(join(folder, file), 'utf8').matchAll(/^(?:export )?class (\w+)/gm)])
    .map(([, name]) => name);
  expect(names.length).toBeGreaterThan(50);
  expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
});
