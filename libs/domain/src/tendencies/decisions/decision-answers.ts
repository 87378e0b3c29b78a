import type { Vocabulary } from '../../charting/vocabulary.js';
import { choiceMask, knownMask, listMask, termMask } from '../../football/play-masks.js';
import type { TendencyPlays } from '../tendency-plays.js';
import type { Answers } from './counted-share.js';

/**
 * Fourth downs: 1 went for it, 0 kicked. A fake is a snap that went for it. Kneels, spikes, aborted snaps and plays that
 * a foul stopped before a decision was seen are -1, as is everything on other downs.
 */
export function wentForIt({ plays, counts }: TendencyPlays, vocabulary: Vocabulary): Answers {
  const downs = plays.number('down').values;
  const kicked = choiceMask(plays, 'playType', ['punt', 'field goal']);
  const faked = fakes(plays, vocabulary);
  return Int8Array.from(downs, (down, play) => {
    if (down !== 4) return -1;
    if (kicked[play] === 1) return faked[play] === 1 ? 1 : 0;
    return counts[play] === 1 || faked[play] === 1 ? 1 : -1;
  });
}

/** Kicks on fourth down: 1 a kick at goal, 0 a punt; fakes are -1. */
export function kickedAtGoal({ plays }: TendencyPlays, vocabulary: Vocabulary): Answers {
  const downs = plays.number('down').values;
  const atGoal = choiceMask(plays, 'playType', ['field goal']);
  const punt = choiceMask(plays, 'playType', ['punt']);
  const faked = fakes(plays, vocabulary);
  return Int8Array.from(downs, (down, play) =>
    down !== 4 || faked[play] === 1 ? -1 : atGoal[play] === 1 ? 1 : punt[play] === 1 ? 0 : -1,
  );
}

/** Tries: 1 for two points, 0 kicked. */
export function triedForTwo({ plays }: TendencyPlays): Answers {
  const two = choiceMask(plays, 'playType', ['two-point try']);
  const kick = choiceMask(plays, 'playType', ['try kick']);
  return Int8Array.from(two, (is, play) => (is === 1 ? 1 : kick[play] === 1 ? 0 : -1));
}

/** Kickoffs: 1 onside, 0 deep; -1 where neither call nor result says which. */
export function kickedOnside({ plays }: TendencyPlays, vocabulary: Vocabulary): Answers {
  const kickoff = choiceMask(plays, 'playType', ['kickoff']);
  const onsideCall = termMask(plays, 'callFamily', vocabulary, ['callFamily.onside-kick']);
  const onsideResult = termMask(plays, 'snapResult', vocabulary, [
    'snapResult.onside-recovered-by-the-kickers',
    'snapResult.onside-recovered-by-the-receivers',
  ]);
  const told = knownMask(plays, 'callFamily');
  const ended = knownMask(plays, 'snapResult');
  return Int8Array.from(kickoff, (is, play) => {
    if (is !== 1) return -1;
    if (onsideCall[play] === 1 || onsideResult[play] === 1) return 1;
    return told[play] === 1 || ended[play] === 1 ? 0 : -1;
  });
}

/** Punts and kicks at goal: 1 faked, 0 not; -1 where the chart says neither. */
export function faked({ plays }: TendencyPlays, vocabulary: Vocabulary): Answers {
  const kick = choiceMask(plays, 'playType', ['punt', 'field goal']);
  const fake = fakes(plays, vocabulary);
  const said = knownMask(plays, 'fake');
  const told = termMask(plays, 'callFamily', vocabulary, ['callFamily.punt', 'callFamily.field-goal']);
  const kickEnd = termMask(plays, 'snapResult', vocabulary, [
    'snapResult.kick-good',
    'snapResult.kick-missed',
    'snapResult.kick-blocked',
    'snapResult.touchback',
    'snapResult.fair-catch',
    'snapResult.returned',
    'snapResult.downed',
    'snapResult.muffed',
  ]);
  return Int8Array.from(kick, (is, play) => {
    if (fake[play] === 1) return 1;
    if (is !== 1) return -1;
    return said[play] === 1 || told[play] === 1 || kickEnd[play] === 1 ? 0 : -1;
  });
}

/** Counting snaps: 1 a run called, 0 a pass. */
export function calledRun({ counts, called }: TendencyPlays): Answers {
  return Int8Array.from(called, (code, play) => (counts[play] !== 1 || code < 0 ? -1 : code === 0 ? 1 : 0));
}

/** Counting snaps with a known tempo: 1 where it is one of these terms. */
export function hadTempo({ plays, counts }: TendencyPlays, vocabulary: Vocabulary, tempos: readonly string[]): Answers {
  const of = termMask(plays, 'tempo', vocabulary, tempos);
  const known = knownMask(plays, 'tempo');
  return Int8Array.from(counts, (is, play) => (is !== 1 || known[play] !== 1 ? -1 : (of[play] ?? 0)));
}

/** Counting snaps whose duel is known: 1 where the side took a timeout in it. */
export function tookTimeout(
  { plays, counts }: TendencyPlays,
  vocabulary: Vocabulary,
  side: 'offense' | 'defense',
): Answers {
  const took = listMask(plays, 'preSnapAdjustments', vocabulary, [`preSnapAdjustment.${side}-timeout`]);
  const { known } = plays.list('preSnapAdjustments');
  return Int8Array.from(counts, (is, play) => (is !== 1 || known[play] !== 1 ? -1 : (took[play] ?? 0)));
}

function fakes(plays: TendencyPlays['plays'], vocabulary: Vocabulary): Uint8Array {
  const flagged = choiceMask(plays, 'fake', ['yes']);
  const called = termMask(plays, 'callFamily', vocabulary, ['callFamily.fake-kick']);
  return flagged.map((is, play) => is | (called[play] ?? 0));
}
