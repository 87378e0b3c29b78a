import { mkdirSync, writeFileSync } from 'node:fs';
import { demoFiles } from './write.js';

/** Writes the demo league anew. Nothing changes unless the generator did. */
const folder = new URL('./data/', import.meta.url);
mkdirSync(folder, { recursive: true });
for (const [name, text] of demoFiles()) {
  writeFileSync(new URL(name, folder), text);
  console.log(`${name}: ${text.split('\n').length - 1} lines, ${Math.round(text.length / 1024)} KiB`);
}
