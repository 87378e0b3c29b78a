import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { DuelAnswer } from '#domain/tendencies/adjustments/duel-answers.js';
import type { DuelStep } from '#domain/tendencies/adjustments/duel-steps.js';
import type { DuelNode } from '#domain/tendencies/adjustments/duel-tree.js';
import type { Side } from '#domain/tendencies/tendency-plays.js';
import { duelAnswerWords, duelNodeWords } from '#domain/tendencies/words/adjustment-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { count, interval, orNull, results, roundedP } from '../../common/figures.js';
import { evidencedShare } from '../../common/value-count.js';
import type { DuelAnswerResponse, DuelNodeResponse, DuelStepResponse } from './adjustments.dto.js';

export function duelNodeResponse(node: DuelNode, plays: PlayColumns, side: Side, voice: Voice): DuelNodeResponse {
  return {
    step: orNull(node.path.at(-1) ?? null, stepResponse),
    ...evidencedShare(duelNodeWords(node, side, voice), node.share, plays),
    snapped: node.snapped,
    results: results(node.results),
    children: node.children.map((child) => duelNodeResponse(child, plays, side, voice)),
  };
}

export function duelAnswerResponse(answer: DuelAnswer, plays: PlayColumns, voice: Voice): DuelAnswerResponse {
  return {
    shown: stepResponse(answer.shown),
    answer: orNull(answer.answer, stepResponse),
    ...evidencedShare(duelAnswerWords(answer, voice), answer.share, plays),
    anyway: count(answer.anyway),
    difference: orNull(answer.difference, interval),
    pValue: orNull(answer.pValue, roundedP),
    established: answer.established,
    results: results(answer.results),
  };
}

function stepResponse({ by, label, termId }: DuelStep): DuelStepResponse {
  return { by, label, termId };
}
