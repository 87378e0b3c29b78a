import { pointOfAttack, type AttackSplit } from '../../tendencies/point-of-attack/point-of-attack.js';
import { anyOf, counted, FEWEST_FOR_PERCENT } from '../../tendencies/words/count-words.js';
import { attackSplitWords, causeWords, otherSideWords } from '../../tendencies/words/point-of-attack-words.js';
import { foundNothingOn, habitTopic, ofShare, type HabitFinding, type HabitSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { offTheField } from './off-the-field.js';

/** Causes that force nothing. */
const AS_DESIGNED: readonly string[] = ['no', 'read by design'];

interface Part {
  readonly what: 'front' | 'pressure from the';
  readonly split: AttackSplit;
}

/** Where the ball was meant to go against where it went; for a defense the balls that it forced. */
export function pointOfAttackTopic(source: HabitSource): HabitTopic {
  const found = pointOfAttack(source.asked);
  const { all, causes, otherSide, byFront, byPressureSide } = found;
  if (all.forced.known === 0) {
    const none = `whether a ball was forced is not known on ${anyOf(all.snaps, 'snap')}`;
    return habitTopic(source, 'pointOfAttack', none, [], 'not charted');
  }
  const parts = [
    ...byFront.map((split): Part => ({ what: 'front', split })),
    ...byPressureSide.map((split): Part => ({ what: 'pressure from the', split })),
  ];
  const forcing = causes.find(({ value }) => !AS_DESIGNED.includes(value.label));
  const findings: HabitFinding[] = [
    {
      ...ofShare(all.forced),
      key: ['all'],
      label: 'forced off the design',
      words: attackSplitWords(all, '', 'scout'),
      status: offTheField([all.forced], (share) => share, 'both').length > 0 ? 'established' : 'counted',
    },
    ...(forcing === undefined || forcing.share.known < FEWEST_FOR_PERCENT
      ? []
      : [
          {
            ...ofShare(forcing.share),
            key: ['cause', forcing.value.key],
            label: forcing.value.label,
            words: `most often ${causeWords(forcing)}`,
            status: 'counted' as const,
          },
        ]),
    ...offTheField(parts, ({ split }) => split.forced, 'both').map(partFinding),
    ...(otherSide.known < FEWEST_FOR_PERCENT
      ? []
      : [
          {
            ...ofShare(otherSide),
            key: ['other-side'],
            label: 'went to another side than meant',
            words: otherSideWords(otherSide, 'scout'),
            status: 'counted' as const,
          },
        ]),
  ];
  const note = `known on ${all.forced.known} of ${counted(all.snaps, 'snap')}`;
  return habitTopic(source, 'pointOfAttack', note, findings, foundNothingOn(all.forced.known));
}

function partFinding({ what, split }: Part): HabitFinding {
  const value = split.value?.label ?? '';
  return {
    ...ofShare(split.forced),
    key: [what, split.value?.key ?? 'all'],
    label: `forced off the design, ${what} ${value}`,
    words: attackSplitWords(split, what, 'scout'),
    status: 'established',
  };
}
