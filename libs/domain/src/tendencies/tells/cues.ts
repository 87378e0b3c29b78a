import type { Vocabulary } from '../../charting/vocabulary.js';
import { fieldCodes, type DimensionCodes } from '../dimension-codes.js';
import type { DimensionValue } from '../dimension-names.js';
import { readDimension } from '../dimensions.js';
import type { Side, TendencyPlays } from '../tendency-plays.js';
import { ALIGNMENT_GROUPS, alignmentCodes, type AlignmentCue } from './alignment-cues.js';
import { CUE_FACTS, CUE_NAMES, CUE_PAIRS, type CueName, type CueStage, type FirstSeen } from './cue-names.js';
import { waitCodes } from './line-up-wait.js';
import { pairCodes } from './pair-codes.js';

/** One value of a cue: of a single cue one part, of a pair two. */
export interface CueValue {
  /** The same in every batch; of a pair both keys, joined. */
  readonly key: string;
  readonly label: string;
  readonly parts: readonly DimensionValue[];
}

/** Something visible before the snap, read off a batch of plays. */
export interface Cue {
  /** One name, or the two of a pair. */
  readonly names: readonly CueName[];
  readonly label: string;
  /** The later stage of a pair's two. */
  readonly stage: CueStage;
  /** Of a pair, when both can be seen. */
  readonly firstSeen: FirstSeen;
  /** One a play: place in `values`, -1 where it (or either of a pair) is not known. */
  readonly codes: Int16Array;
  readonly values: readonly CueValue[];
}

/**
 * Everything visible before the snap on the side that is scouted, cue by cue. "None" (no motion, no adjustment) is a
 * value, unknown never is. Cues of which the batch knows nothing are there, without a play.
 *
 * @param facts      - the plays of the player: with the ball for offense, of opponents for defense
 * @param vocabulary - the reader's, by whose canonical ids the batch was gathered
 * @throws DomainError `vocabulary.unknown_code` when the vocabulary lacks the starter terms
 */
export function readCues(side: Side, facts: TendencyPlays, vocabulary: Vocabulary): Cue[] {
  return CUE_NAMES[side].map((name) => {
    const { codes, values } = readCue(name, facts, vocabulary);
    return { names: [name], ...CUE_FACTS[name], codes, values: values.map(singleValue) };
  });
}

/**
 * The pairs that are looked at, from cues read earlier; a combination is a value of its own. Either part unknown makes
 * the pair unknown.
 *
 * @param cues - as `readCues` gave them
 */
export function readCuePairs(side: Side, cues: readonly Cue[]): Cue[] {
  return CUE_PAIRS[side].flatMap(([firstName, secondName]) => {
    const first = cues.find(({ names }) => names[0] === firstName);
    const second = cues.find(({ names }) => names[0] === secondName);
    return first === undefined || second === undefined ? [] : [pairOf(first, second)];
  });
}

function readCue(name: CueName, facts: TendencyPlays, vocabulary: Vocabulary): DimensionCodes {
  if (isAlignmentCue(name)) return alignmentCodes(name, facts, vocabulary);
  if (name === 'lineUpWait') return waitCodes(facts);
  if (name === 'boxCount') return readDimension('boxCount', facts, vocabulary);
  return fieldCodes(name, facts, vocabulary);
}

function isAlignmentCue(name: CueName): name is AlignmentCue {
  return name in ALIGNMENT_GROUPS;
}

function singleValue(value: DimensionValue): CueValue {
  return { key: value.key, label: value.label, parts: [value] };
}

function pairOf(first: Cue, second: Cue): Cue {
  const { codes, pairs } = pairCodes(first.codes, second.codes, second.values.length);
  const values = pairs.flatMap(([one, other]) => {
    const [left, right] = [first.values[one], second.values[other]];
    if (left === undefined || right === undefined) return [];
    return [
      {
        key: `${left.key} + ${right.key}`,
        label: `${left.label} with ${second.label} ${right.label}`,
        parts: [...left.parts, ...right.parts],
      },
    ];
  });
  return {
    names: [...first.names, ...second.names],
    label: `${first.label} and ${second.label}`,
    stage: first.stage === 'line' || second.stage === 'line' ? 'line' : 'huddle',
    firstSeen: laterOf(first.firstSeen, second.firstSeen),
    codes,
    values,
  };
}

const EARLIEST_FIRST: readonly FirstSeen[] = ['before line-up', 'at line-up', 'not charted'];

function laterOf(first: FirstSeen, second: FirstSeen): FirstSeen {
  return EARLIEST_FIRST.indexOf(first) > EARLIEST_FIRST.indexOf(second) ? first : second;
}
