import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { Decision, Timeouts } from '#domain/tendencies/decisions/decisions.js';
import type { Side } from '#domain/tendencies/tendency-plays.js';
import { decisionWords, type DecisionName } from '#domain/tendencies/words/decision-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { playReference } from '../../common/play-reference.dto.js';
import { evidencedShare } from '../../common/value-count.js';
import type { DecisionResponse, TimeoutsResponse } from './decisions.dto.js';

export function decisionResponse(
  name: DecisionName,
  { all, by }: Decision,
  plays: PlayColumns,
  voice: Voice,
): DecisionResponse {
  return {
    decision: name,
    ...evidencedShare(decisionWords(name, all, null, voice), all, plays),
    by: by
      .filter(({ parts }) => parts.length > 0)
      .map(({ partition, parts }) => ({
        partition,
        parts: parts.map(({ part, share }) => ({
          part,
          ...evidencedShare(decisionWords(name, share, { partition, part }, voice), share, plays),
        })),
      })),
  };
}

export function timeoutsResponse(
  side: Side,
  { used, inTheDuel, kept }: Timeouts,
  plays: PlayColumns,
  voice: Voice,
): TimeoutsResponse {
  return {
    side,
    used: decisionResponse('timeoutUsed', used, plays, voice),
    inTheDuel: evidencedShare(decisionWords('timeoutInTheDuel', inTheDuel, null, voice), inTheDuel, plays),
    kept: kept.map(({ half, left, play }) => ({ half, left, play: playReference(plays, play) })),
  };
}
