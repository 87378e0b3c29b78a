import { benchAnswers } from './answers.js';
import { benchCalibration } from './calibration.js';
import { benchChartPlay } from './chart-play.js';
import { benchForecast } from './forecast.js';
import { benchImport } from './import.js';
import { benchMappedImport } from './mapped-import.js';
import { benchDomain } from './domain.js';
import { benchMemory } from './memory.js';
import { benchNextCall } from './next-call.js';
import { benchOdds } from './odds.js';
import { benchProfile } from './profile.js';
import { benchAccess, benchRead } from './read.js';

/**
 * Each bench prints what it measured, speed beside a named baseline of the same run, and says whether its target was met.
 * Words after its name are its own.
 */
const BENCHES: Readonly<Record<string, (words: readonly string[]) => Promise<boolean>>> = {
  access: benchAccess,
  answers: benchAnswers,
  calibration: benchCalibration,
  'chart-play': benchChartPlay,
  domain: benchDomain,
  forecast: benchForecast,
  import: benchImport,
  'mapped-import': benchMappedImport,
  memory: benchMemory,
  'next-call': benchNextCall,
  odds: benchOdds,
  profile: benchProfile,
  read: benchRead,
};

const [name = '', ...words] = process.argv.slice(2);
const bench = BENCHES[name];
if (bench === undefined) {
  console.error(`usage: npm run bench -- ${Object.keys(BENCHES).join('|')}`);
  process.exitCode = 2;
} else {
  const met = await bench(words);
  console.log(met ? 'target met' : 'target missed');
  process.exitCode = met ? 0 : 1;
}
