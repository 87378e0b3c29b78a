import { UNKNOWN_CODE, type CodeColumn, type PlayColumns } from '../charting/play-columns.js';
import { calledRunOrPass, type Vocabulary } from '../charting/vocabulary.js';
import { choiceMask, termMask } from './play-masks.js';

/** What the codes of `calledCodes` stand for. */
export const CALLED_NAMES = ['run', 'pass'] as const;
export const CALLED_RUN = 0;
export const CALLED_PASS = 1;

const RESULTS_OF_PASSES = [
  'snapResult.complete',
  'snapResult.incomplete',
  'snapResult.intercepted',
  'snapResult.sacked',
  'snapResult.scrambled',
];

/** Play types on which neither a run nor a pass is called. */
const NEITHER_RUN_NOR_PASS = ['kneel', 'spike', 'punt', 'field goal', 'kickoff', 'free kick', 'try kick'];

/**
 * Whether a run or a pass was called. What the chart says comes first, then what call family and concept fix, then a
 * result that settles it: a throw, a sack and a scramble are the pass that was called, `rushed` is a designed run.
 *
 * On a run-pass option both were called, so neither its run concept nor its result settles the matter: it is unknown
 * unless the chart says run or pass outright. Kicks, kneels and spikes are never run or pass; a two-point try is.
 * Common practice, no source.
 *
 * Reads playType, called, callFamily, concept, runPassOption and snapResult. Says nothing on whether the snap counts:
 * see `countsForCalls`.
 *
 * @returns one code a play: 0 run, 1 pass, -1 unknown or neither
 */
export function calledCodes(plays: PlayColumns, vocabulary: Vocabulary): Int8Array {
  const family = plays.code('callFamily');
  const concept = plays.code('concept');
  const byTerms = tableOfTerms(family, concept, vocabulary);
  const conceptCount = concept.meanings.length + 1;
  const neither = choiceMask(plays, 'playType', NEITHER_RUN_NOR_PASS);
  const run = choiceMask(plays, 'called', ['run']);
  const pass = choiceMask(plays, 'called', ['pass']);
  const rushed = termMask(plays, 'snapResult', vocabulary, ['snapResult.rushed']);
  const thrown = termMask(plays, 'snapResult', vocabulary, RESULTS_OF_PASSES);
  const bothByFamily = termMask(plays, 'callFamily', vocabulary, ['callFamily.run-pass-option']);
  const bothByFlag = choiceMask(plays, 'runPassOption', ['yes']);

  const called = new Int8Array(plays.count).fill(UNKNOWN_CODE);
  for (let play = 0; play < plays.count; play += 1) {
    if (neither[play] === 1) continue;
    const familyCode = family.codes[play] ?? UNKNOWN_CODE;
    const conceptCode = concept.codes[play] ?? UNKNOWN_CODE;
    // A charted family is the charter's word for the call; a flag only outweighs what a concept or a result suggests.
    const both = bothByFamily[play] === 1 || (bothByFlag[play] === 1 && familyCode === UNKNOWN_CODE);
    const fixed = byTerms[(familyCode + 1) * conceptCount + conceptCode + 1] ?? UNKNOWN_CODE;
    if (run[play] === 1) called[play] = CALLED_RUN;
    else if (pass[play] === 1) called[play] = CALLED_PASS;
    else if (both) continue;
    else if (fixed !== UNKNOWN_CODE) called[play] = fixed;
    else if (rushed[play] === 1) called[play] = CALLED_RUN;
    else if (thrown[play] === 1) called[play] = CALLED_PASS;
  }
  return called;
}

/** Answers for every pair of family and concept of the batch, unknown included, so that the loop only looks up. */
function tableOfTerms(family: CodeColumn, concept: CodeColumn, vocabulary: Vocabulary): Int8Array {
  const table = new Int8Array((family.meanings.length + 1) * (concept.meanings.length + 1));
  let at = 0;
  for (const familyId of [null, ...family.meanings]) {
    for (const conceptId of [null, ...concept.meanings]) {
      const answer = calledRunOrPass(vocabulary, familyId, conceptId);
      table[at++] = answer === null ? UNKNOWN_CODE : answer === 'run' ? CALLED_RUN : CALLED_PASS;
    }
  }
  return table;
}
