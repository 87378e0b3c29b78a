import { pointOfAttack, type AttackSplit } from '../../tendencies/point-of-attack/point-of-attack.js';
import { anyOf, counted, FEWEST_FOR_PERCENT } from '../../tendencies/words/count-words.js';
import { attackSplitWords, causeWords, otherSideWords } from '../../tendencies/words/point-of-attack-words.js';
import { foundNothingOn, habitTopic, ofShare, type HabitFinding, type HeldSource } from './habit-claims.js';
import type { HabitTopic } from './habits-shape.js';
import { offTheField } from './off-the-field.js';

/** Causes that force nothing. */
const AS_DESIGNED: readonly string[] = ['no', 'read by design'];

interface Part {
  readonly what: 'front' | 'pressure from the';
  readonly split: AttackSplit;
}

/** Where the ball was meant to go against where it went; for a defense the balls that it forced. */
export function pointOfAttackTopic(source: HeldSource): HabitTopic {
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
  // One family: the parts say again what all of them say.
  const standing = offTheField(source, [{ what: null, split: all }, ...parts], ({ split }) => split.forced, 'both');
  const forcing = causes.find(({ value }) => !AS_DESIGNED.includes(value.label));
  const findings: HabitFinding[] = [
    {
      ...ofShare(all.forced),
      key: ['all'],
      label: 'forced off the design',
      words: attackSplitWords(all, '', 'scout'),
      status: standing.some(({ what }) => what === null) ? 'established' : 'counted',
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
    ...standing.flatMap(({ what, split }) => (what === null ? [] : [partFinding({ what, split })])),
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
