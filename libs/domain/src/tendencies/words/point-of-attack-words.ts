import type { AttackSplit, MeantAndWent } from '../point-of-attack/point-of-attack.js';
import type { ValueCount } from '../decisions/value-counts.js';
import type { CountedShare } from '../decisions/counted-share.js';
import { knownNotes, shareWords, successNotes, wordedShare } from './count-words.js';
import { sentence, type Voice } from './voice.js';

/** `front bear: forced off the design 7 of 20, 20-54 %, field 22 %; succeeded forced 1 of 7, not forced 8 of 13`. */
export function attackSplitWords(
  { value, snaps, forced, whenForced, whenNot }: AttackSplit,
  what: string,
  voice: Voice,
): string {
  const where = value === null ? 'all snaps' : `${what} ${value.label}`;
  const words = forced.known === 0 ? 'not seen on this film' : shareWords(wordedShare(forced));
  return sentence(
    {
      scout: `${where}: forced off the design ${words}`,
      self: `are forced off the design ${words}, ${value === null ? 'all snaps' : `against ${where}`}`,
      notes: [
        ...successNotes([
          ['forced', whenForced],
          ['not forced', whenNot],
        ]),
        ...knownNotes(forced.known, snaps),
      ],
    },
    voice,
  );
}

/** `meant for the left, went right: 4 of 19`. */
export function meantWords({ meant, went, count }: MeantAndWent, known: number): string {
  const stayed = meant.key === went.key;
  return `meant for ${meant.label}, ${stayed ? 'went there' : `went ${went.label}`}: ${count} of ${known}`;
}

/** `forced by a set edge 3 of 20`. */
export function causeWords({ value, share }: ValueCount): string {
  const label = value.label === 'no' ? 'as designed' : value.label;
  return `${label} ${shareWords(wordedShare(share))}`;
}

export function otherSideWords(share: CountedShare, voice: Voice): string {
  const words = shareWords(wordedShare(share));
  return sentence(
    {
      scout: `went to another side than meant ${words}`,
      self: `go to another side than you meant ${words}`,
      notes: [],
    },
    voice,
  );
}
