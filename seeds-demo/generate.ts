import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { demoFiles } from './write.js';

/** Writes the demo league anew, beside the generator or into the folder that is named. */
const folder = process.argv[2] ?? path.join(import.meta.dirname, 'data');
mkdirSync(folder, { recursive: true });
for (const [name, text] of demoFiles()) {
  writeFileSync(path.join(folder, name), text);
  console.log(`${name}: ${text.split('\n').length - 1} lines, ${Math.round(text.length / 1024)} KiB`);
}
