import { DIMENSION_LABELS, type DimensionName } from '../dimension-names.js';
import type { Openers, OpenerValue } from '../sequences/openers.js';
import type { OrderDependence, SituationDependence } from '../sequences/order-dependence.js';
import type { Reaction, ReactionValue } from '../sequences/reactions.js';
import type { RepeatHabit } from '../sequences/repeat-habits.js';
import { callVerb, callWords } from './call-verbs.js';
import {
  chanceWords,
  counted,
  knownNotes,
  pValueWords,
  shareWords,
  UNLIKELY,
  withCounts,
  wordedShare,
} from './count-words.js';
import { sentence, type Voice } from './voice.js';

/** `first 15 snaps of a game: run 8 of 15, 33-72 %, field 40 %; later 60 of 200`. */
export function openerWords(
  of: Openers['of'],
  snaps: number,
  dimension: DimensionName,
  { value, share, later }: OpenerValue,
  voice: Voice,
): string {
  const where = `first ${counted(snaps, 'snap')} of a ${of}`;
  const words = shareWords(wordedShare(share));
  return sentence(
    {
      scout: `${where}: ${withCounts(callWords(dimension, value.label), words)}`,
      self: `${withCounts(callVerb(dimension, value.label), words)} on the ${where}`,
      notes: [`later ${later.count} of ${later.known}`],
    },
    voice,
  );
}

/** `after a failure: same call family again 12 of 30, 27-56 %; the own mix would give 11 of 28`. */
export function repeatWords(
  { after, repeated, ...habit }: RepeatHabit,
  dimension: DimensionName,
  voice: Voice,
): string {
  const share = shareWords(wordedShare(repeated));
  const { anyway, expectedOf, test } = habit;
  const notes: string[] = [];
  if (anyway !== null) notes.push(`the own mix would give ${Math.round(anyway * expectedOf)} of ${expectedOf}`);
  if (test === null) notes.push('nothing to compare inside situation and game');
  else notes.push(chanceWords(test.pValue, test.z > 0 ? 'more often than chance' : 'less often than chance'));
  const label = DIMENSION_LABELS[dimension];
  return sentence(
    {
      scout: `after a ${after}: same ${label} again ${share}`,
      self: `repeat the ${label} ${share} after a ${after}`,
      notes,
    },
    voice,
  );
}

/** `snap after a sack: run 5 of 8; otherwise 80 of 200; field 40 %`. */
export function reactionWords(
  { event, snaps, known }: Pick<Reaction, 'event' | 'snaps' | 'known'>,
  dimension: DimensionName,
  { value, share, otherwise, fieldPValue }: ReactionValue,
  voice: Voice,
): string {
  const where = `snap after ${event === 'explosive play' ? 'an' : 'a'} ${event}`;
  const words = shareWords(wordedShare(share));
  const notes = [`otherwise ${otherwise.count} of ${otherwise.known}`, ...knownNotes(known, snaps)];
  if (fieldPValue !== null) notes.push(chanceWords(fieldPValue, 'unlike the field after the same'));
  return sentence(
    {
      scout: `${where}: ${withCounts(callWords(dimension, value.label), words)}`,
      self: `${withCounts(callVerb(dimension, value.label), words)} on the ${where}`,
      notes,
    },
    voice,
  );
}

/** `3rd and 7-10: same as the call before 4 of 9`. */
export function situationOrderWords(
  { situation, repeated }: SituationDependence,
  dimension: DimensionName,
  voice: Voice,
): string {
  const share = shareWords(wordedShare(repeated));
  const label = DIMENSION_LABELS[dimension];
  return sentence(
    {
      scout: `${situation}: same ${label} as on the snap before ${share}`,
      self: `keep the ${label} of the snap before ${share} on ${situation}`,
      notes: [],
    },
    voice,
  );
}

/** Whether the call before says anything of the next one, all situations together. */
export function orderWords({ overall, repeated }: OrderDependence, dimension: DimensionName): string {
  const label = DIMENSION_LABELS[dimension];
  const pairs = `${counted(repeated.known, 'pair')} of snaps`;
  if (overall === null) return `${pairs}: too few to say whether one ${label} bears on the next`;
  return `${pairs}: ${
    overall.pValue < UNLIKELY
      ? `the ${label} depends on the snap before (${pValueWords(overall.pValue)})`
      : `no sign that the ${label} depends on the snap before (${pValueWords(overall.pValue)})`
  }, inside situation and game`;
}

/** `run or pass called: same as on the snap before 40 of 120, 27-41 %, field 50 %`. */
export function repeatedOrderWords({ repeated }: OrderDependence, dimension: DimensionName): string {
  return `${DIMENSION_LABELS[dimension]}: same as on the snap before ${shareWords(wordedShare(repeated))}`;
}
