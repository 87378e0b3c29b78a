import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import type {
  ActionOpening,
  ManualDefenderSituation,
  StartAndAction,
} from '#domain/tendencies/manual-defender/manual-defender.js';
import {
  conceptWords,
  controlledDefenderWords,
  hitWords,
  openingWords,
  ownCallIntoWords,
  startAndActionWords,
} from '#domain/tendencies/words/defense-words.js';
import type { OwnCallInto } from '#domain/tendencies/manual-defender/own-calls-into.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { results, value } from '../../common/figures.js';
import { playReferences } from '../../common/play-reference.dto.js';
import { evidencedShare, valueCount } from '../../common/value-count.js';
import type {
  ControlledSituationResponse,
  OpeningResponse,
  OwnCallIntoResponse,
  StartAndActionResponse,
} from './manual-defender.dto.js';

export function controlledSituation(
  { situation, snaps, starts, actions }: ManualDefenderSituation,
  plays: PlayColumns,
  voice: Voice,
): ControlledSituationResponse {
  return {
    situation,
    snaps,
    starts: starts.map((of) => valueCount(controlledDefenderWords(situation, 'starts', of, snaps, voice), of, plays)),
    actions: actions.map((of) => valueCount(controlledDefenderWords(situation, 'acts', of, snaps, voice), of, plays)),
  };
}

export function startsAndActions(pairs: readonly StartAndAction[], plays: PlayColumns): StartAndActionResponse[] {
  const fromStart = new Map<string, number>();
  for (const { start, count } of pairs) fromStart.set(start.key, (fromStart.get(start.key) ?? 0) + count);
  return pairs.map((pair) => {
    const known = fromStart.get(pair.start.key) ?? 0;
    return {
      words: startAndActionWords(pair, known),
      start: value(pair.start),
      action: value(pair.action),
      count: pair.count,
      known,
      plays: playReferences(pair.evidence, plays),
    };
  });
}

/** @param ownCalls - those of ours that hit the area */
export function openingResponse(
  opening: ActionOpening,
  plays: PlayColumns,
  voice: Voice,
  ownCalls: OwnCallIntoResponse[],
): OpeningResponse {
  const { action, area, hits, whenHit, elsewhere, concepts } = opening;
  return {
    words: openingWords(opening, voice),
    action: value(action),
    area: area.name,
    hits: evidencedShare(hitWords(area.name, hits), hits, plays),
    whenHit: results(whenHit),
    elsewhere: results(elsewhere),
    concepts: concepts.map((of) => valueCount(conceptWords(of), of, plays)),
    ownCalls,
  };
}

/** @param plays - the batch of the throws, everybody's */
export function ownCallResponse(into: OwnCallInto, plays: PlayColumns, vocabulary: Vocabulary): OwnCallIntoResponse {
  const { id, name, rehearsed, byCheck, conceptId } = into.call;
  const concept = (conceptId === null ? null : vocabulary.byId(conceptId)?.name) ?? '';
  return {
    words: ownCallIntoWords(into, concept),
    ...{ menuCallId: id, name, rehearsed, reachableByCheck: byCheck },
    count: into.hits,
    known: into.known,
    plays: playReferences(into.evidence, plays),
  };
}
