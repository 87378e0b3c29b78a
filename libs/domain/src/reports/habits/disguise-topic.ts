import { disguise, type Disguise } from '../../tendencies/disguise/disguise.js';
import type { CountedShare } from '../../tendencies/decisions/counted-share.js';
import { anyOf, counted, FEWEST_FOR_PERCENT, ordinal } from '../../tendencies/words/count-words.js';
import {
  disguiseWords,
  downWords,
  lateWords,
  shellCoverageWords,
  shellWords,
  visibilityWords,
} from '../../tendencies/words/defense-words.js';
import { foundNothingOn, habitTopic, ofShare, type HabitFinding, type HeldSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { isApart, offTheField, without } from './off-the-field.js';

/** Pairs of shell and coverage that are named, and the plays that make one worth naming. Choices, no source. */
const MOST_PAIRS = 2;
const FEWEST_OF_A_PAIR = 5;

/** Whether what is shown before the snap is what is played after it. */
export function disguiseTopic(source: HeldSource): HabitTopic {
  const found = disguise(source.asked);
  const { disguised, bothKnown, snaps, visibility } = found;
  if (disguised.known === 0) {
    const none = `shell and coverage were not both seen on ${anyOf(snaps, 'snap')}`;
    return habitTopic(source, 'disguise', none, [], 'not charted');
  }
  const standing = standingShares(source, found);
  const note = `shell and coverage both seen on ${bothKnown} of ${counted(snaps, 'snap')}`;
  const findings: HabitFinding[] = [
    {
      ...ofShare(disguised),
      key: ['all'],
      label: 'a shell that lies',
      words: disguiseWords(found, 'scout'),
      status: standing.has(disguised) ? 'established' : 'counted',
    },
    ...lyingPairs(found),
    ...partsOffTheField(found, standing, source.asked.confidence),
    ...late('movedLate', found.movedLate),
  ];
  const seen = visibility === null ? note : `${note}; ${visibilityWords(visibility)}`;
  return habitTopic(source, 'disguise', seen, findings, foundNothingOn(bothKnown));
}

function lyingPairs({ pairs, bothKnown }: Disguise): HabitFinding[] {
  return pairs
    .filter((pair) => pair.disguised === 1 && pair.count >= FEWEST_OF_A_PAIR)
    .slice(0, MOST_PAIRS)
    .map((pair) => ({
      key: ['pair', pair.shell.key, pair.coverage.key],
      label: `${pair.coverage.label} behind ${pair.shell.label}`,
      words: shellCoverageWords(pair, bothKnown),
      count: pair.count,
      known: bothKnown,
      evidence: pair.evidence,
      status: 'counted',
    }));
}

/** The most certain first. One family, since the parts say again what all of them say. */
function standingShares(source: HeldSource, { disguised, byShell, byDown }: Disguise): ReadonlySet<CountedShare> {
  const shares = [disguised, ...[...byShell, ...byDown].map((part) => part.disguised)];
  return new Set(offTheField(source, shares, (share) => share, 'both'));
}

/** Shells and downs that lie more or less often than the field's, and than the player's others. */
function partsOffTheField(
  { disguised: all, byShell, byDown }: Disguise,
  standing: ReadonlySet<CountedShare>,
  confidence: number,
): HabitFinding[] {
  const parts = [
    ...byShell.map(({ shell, disguised }) => ({
      key: ['shell', shell.key],
      label: `shell ${shell.label} that lies`,
      words: shellWords(shell.label, disguised, 'scout'),
      share: disguised,
    })),
    ...byDown.map(({ down, disguised }) => ({
      key: ['down', `${down}`],
      label: `a shell that lies on ${ordinal(down)} down`,
      words: downWords(down, disguised, 'scout'),
      share: disguised,
    })),
  ];
  const apart = [...standing]
    .flatMap((one) => parts.filter(({ share }) => share === one))
    .filter(({ share }) => isApart(share, without(all, share), confidence));
  return apart.map(({ key, label, words, share }) => ({
    ...ofShare(share),
    ...{ key, label, words, status: 'established' },
  }));
}

function late(key: string, share: CountedShare): HabitFinding[] {
  if (share.known < FEWEST_FOR_PERCENT || share.count === 0) return [];
  const what = 'disguise moved late';
  return [{ ...ofShare(share), key: [key], label: what, words: lateWords(what, share), status: 'counted' }];
}
