import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import type { Cue } from '#domain/tendencies/tells/cues.js';
import type { Lead } from '#domain/tendencies/tells/leads.js';
import type { CueAndCall, Tell } from '#domain/tendencies/tells/tell-shape.js';
import { leadWords, tellWords } from '#domain/tendencies/words/tell-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { interval, orNull, rounded, roundedP, value } from '../../common/figures.js';
import { playReferences } from '../../common/play-reference.dto.js';
import type { CueAndCallResponse, CueKnownResponse, LeadResponse, TellResponse } from './tells.dto.js';

/** What a tell is told with. */
export interface TellContext {
  readonly facts: TendencyPlays;
  /** Plays that were searched. */
  readonly searched: number;
  readonly voice: Voice;
}

export function tellResponse(tell: Tell, context: TellContext): TellResponse {
  return {
    words: tellWords(tell, context.voice),
    ...cueAndCall(tell, context),
    adjustedPValue: roundedP(tell.adjustedPValue),
    restates: tell.restates,
  };
}

export function leadResponse(lead: Lead, context: TellContext): LeadResponse {
  const { name, count, plays, countWithout, playsWithout } = lead.parentSituation;
  return {
    words: leadWords(lead, context.voice),
    ...cueAndCall(lead, context),
    status: lead.status,
    rank: lead.rank,
    parentSituation: { situation: name, count, plays, countWithout, playsWithout },
    snapsToSettle: lead.snapsToSettle,
  };
}

function cueAndCall(of: CueAndCall, { facts, searched }: TellContext): Omit<CueAndCallResponse, 'words'> {
  const { names, label, stage } = of.cue;
  return {
    cue: { names: [...names], label, value: of.cueValue.label, stage },
    dimension: of.dimension,
    call: value(of.call),
    direction: of.direction,
    count: of.count,
    plays: of.plays,
    countWithout: of.countWithout,
    playsWithout: of.playsWithout,
    of: searched,
    shareWith: rounded(of.shareWith),
    shareWithout: rounded(of.shareWithout),
    difference: rounded(of.difference),
    interval: orNull(of.interval, interval),
    lift: orNull(of.lift, rounded),
    // JSON has no infinity: where nothing speaks against the call, no odds are told.
    oddsRatio: of.oddsRatio !== null && Number.isFinite(of.oddsRatio) ? rounded(of.oddsRatio) : null,
    pValue: roundedP(of.pValue),
    method: of.method,
    games: of.games,
    gamesSeen: of.gamesSeen,
    oneGameOnly: of.oneGameOnly,
    seconds: orNull(of.seconds, ({ median, fewest, plays, atLeast }) => ({ median, fewest, plays, atLeast })),
    evidence: playReferences(of.evidence, facts.plays),
    exceptions: playReferences(of.exceptions, facts.plays),
  };
}

/** On how many counting plays each cue was charted. */
export function cuesKnown(cues: readonly Cue[], { counts }: TendencyPlays): CueKnownResponse[] {
  return cues.map(({ label, codes }) => ({
    cue: label,
    known: codes.reduce((known, code, play) => known + (code >= 0 && counts[play] === 1 ? 1 : 0), 0),
  }));
}
