import { UNKNOWN_CODE } from '../../charting/play-columns.js';
import type { Vocabulary } from '../../charting/vocabulary.js';
import { wordValue, type DimensionCodes } from '../dimension-codes.js';
import type { TendencyPlays } from '../tendency-plays.js';

/** Words for a value, and the terms that show it; codes without their kind. */
type Groups = readonly (readonly [words: string, terms: readonly string[]])[];

/**
 * Adjustments of the defensive alignment by who makes them. What cannot be seen before the snap (a slant, a spy, who
 * keeps contain) is no cue; a corner who will bail shows press until then. Common trade practice, no source.
 */
export const ALIGNMENT_GROUPS = {
  cushion: [
    ['press', ['corners-press', 'corner-bails']],
    ['off', ['corners-off']],
  ],
  linemen: [
    ['shifted to a side', ['line-shifts-to-a-side']],
    ['tight', ['line-tightens']],
    ['wide', ['line-widens']],
  ],
  linebackers: [
    ['shifted to a side', ['linebackers-shift-to-a-side']],
    ['tight', ['linebackers-tighten']],
    ['wide', ['linebackers-widen']],
    ['backed off', ['linebackers-back-off']],
  ],
  secondLevelUp: [
    ['over an interior gap', ['second-level-defender-up-over-an-interior-gap']],
    ['over a guard or tackle', ['second-level-defender-up-over-a-guard-or-tackle']],
    ['on the edge', ['second-level-defender-up-on-the-edge']],
  ],
  slotDefender: [
    ['in the box', ['slot-defender-in-the-box']],
    ['over the receiver', ['slot-defender-over-receiver']],
  ],
  safeties: [
    ['down strong', ['safety-down-strong']],
    ['down weak', ['safety-down-weak']],
    ['deeper', ['safeties-deeper']],
    ['shallower', ['safeties-shallower']],
  ],
  leverage: [
    ['inside', ['inside-leverage']],
    ['outside', ['outside-leverage']],
  ],
} as const satisfies Readonly<Record<string, Groups>>;

export type AlignmentCue = keyof typeof ALIGNMENT_GROUPS;

/**
 * One group of adjustments as a cue: its values in order, then `several` where two of them were seen on one play, then
 * `none` where adjustments were charted and no value of the group was among them. A play whose adjustments were not
 * charted is unknown.
 *
 * @throws DomainError `vocabulary.unknown_code` when the vocabulary lacks the starter terms
 */
export function alignmentCodes(cue: AlignmentCue, facts: TendencyPlays, vocabulary: Vocabulary): DimensionCodes {
  const groups: Groups = ALIGNMENT_GROUPS[cue];
  const several = groups.length;
  const none = groups.length + 1;
  const { starts, codes, meanings, known } = facts.plays.list('alignmentAdjustments');
  const terms = groups.map(([, names]) => names.map((name) => vocabulary.idOfCode(`alignmentAdjustment.${name}`)));
  const groupOf = meanings.map((id) => terms.findIndex((ids) => ids.some((term) => vocabulary.isWithin(id, term))));

  const shown = new Int16Array(facts.plays.count).fill(UNKNOWN_CODE);
  for (let play = 0; play < shown.length; play += 1) {
    if (known[play] !== 1) continue;
    let value = none;
    for (let at = starts[play] ?? 0; at < (starts[play + 1] ?? 0); at += 1) {
      const group = groupOf[codes[at] ?? UNKNOWN_CODE] ?? UNKNOWN_CODE;
      if (group < 0 || group === value) continue;
      value = value === none ? group : several;
    }
    shown[play] = value;
  }
  return { codes: shown, values: [...groups.map(([words]) => words), 'several of these', 'none'].map(wordValue) };
}
