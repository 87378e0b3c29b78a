import type { CountedShare } from '../decisions/counted-share.js';
import { shareWords, wordedShare } from './count-words.js';
import { sentence, type Voice } from './voice.js';

/** Every decision asked about, in the words of both voices. */
export const DECISION_WORDS = {
  fourthDown: { scout: 'went for it on fourth down', self: 'go for it on fourth down' },
  kicksAtGoal: { scout: 'kicked at goal instead of punting', self: 'kick at goal instead of punting' },
  twoPointTries: { scout: 'tried for two', self: 'try for two' },
  onsideKicks: { scout: 'kicked onside', self: 'kick onside' },
  fakes: { scout: 'faked a kick', self: 'fake a kick' },
  runs: { scout: 'called a run', self: 'call a run' },
  hurry: { scout: 'hurried to the snap', self: 'hurry to the snap' },
  burn: { scout: 'let the clock run down', self: 'let the clock run down' },
  sooner: {
    scout: 'took less clock from snap to snap than the field usually does',
    self: 'take less clock from snap to snap than the field usually does',
  },
  timeoutUsed: { scout: 'used a timeout before the snap', self: 'use a timeout before the snap' },
  timeoutInTheDuel: { scout: 'took a timeout in the duel', self: 'take a timeout in the duel' },
} as const satisfies Readonly<Record<string, { readonly scout: string; readonly self: string }>>;

export type DecisionName = keyof typeof DECISION_WORDS;

interface Part {
  readonly partition: string;
  readonly part: string;
}

/** Bands of numbers need to be told what they are of; the rest says so itself. */
const NEEDS_NAME = new Set(['distance', 'zone']);

/** `distance 2-3`, `behind by one`, `two-minute trailing`. */
export function partWords({ partition, part }: Part): string {
  return NEEDS_NAME.has(partition) ? `${partition} ${part}` : part;
}

/** `went for it on fourth down, distance 2-3: 5 of 9`. @param part - null for all of them */
export function decisionWords(name: DecisionName, share: CountedShare, part: Part | null, voice: Voice): string {
  const { scout, self } = DECISION_WORDS[name];
  const of = share.known === 0 ? 'not known on any play' : shareWords(wordedShare(share));
  const where = part === null ? '' : `, ${partWords(part)}`;
  return sentence({ scout: `${scout}${where}: ${of}`, self: `${self}${where}: ${of}`, notes: [] }, voice);
}
