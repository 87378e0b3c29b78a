import { counted, percent, pValueWords } from '../tendencies/words/count-words.js';
import type { Trend, TrendVerdict } from './trends.js';

const VERDICTS: Readonly<Record<TrendVerdict, string>> = {
  rising: 'rising',
  falling: 'falling',
  steady: 'steady: a change of more than five points is ruled out',
  open: 'open: this film does not settle whether it changes',
};

/** `counter read (concept) is rising: 10 of 1302, 43 of 1544, 65 of 1186; used by 3, 7, 13 players; p below 0.001`. */
export function trendWords({ dimension, value, verdict, byEvent, test }: Trend): string {
  const name = value.map(({ label }) => label).join(' and ');
  const counts = byEvent.map(({ count, known }) => (known === 0 ? 'not seen' : `${count} of ${known}`)).join(', ');
  const users = byEvent.map(({ users: of }) => of).join(', ');
  const words = `${name} (${spelled(dimension)}) is ${VERDICTS[verdict]}: ${counts}; used by ${users} players`;
  return verdict === 'rising' || verdict === 'falling' ? `${words}; ${pValueWords(test.pValue)}` : words;
}

/** What came of it as it spread: `success 7 of 10, 26 of 43, 28 of 65`. */
export function spreadResultWords({ byEvent }: Trend): string {
  const parts = byEvent.map(({ successes, trials }) => (trials === 0 ? 'none seen' : `${successes} of ${trials}`));
  return `success ${parts.join(', ')}`;
}

/** How many calls were looked at, and how many of what was found may be chance. */
export function testedWords(tested: number, level: number): string {
  return `${counted(tested, 'call')} put to the test; of those found, ${percent(level)} may be chance`;
}

function spelled(dimension: string): string {
  return dimension.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
