import { benchImport } from './import.js';
import { benchMappedImport } from './mapped-import.js';
import { benchProfile } from './profile.js';

/** Each bench prints what it measured beside a named baseline of the same run, and says whether its target was met. */
const BENCHES: Readonly<Record<string, () => Promise<boolean>>> = {
  import: benchImport,
  'mapped-import': benchMappedImport,
  profile: benchProfile,
};

const [name = ''] = process.argv.slice(2);
const bench = BENCHES[name];
if (bench === undefined) {
  console.error(`usage: npm run bench -- ${Object.keys(BENCHES).join('|')}`);
  process.exitCode = 2;
} else {
  const met = await bench();
  console.log(met ? 'target met' : 'target missed');
  process.exitCode = met ? 0 : 1;
}
