import type { PlayColumns } from '../charting/play-columns.js';
import type { Vocabulary } from '../charting/vocabulary.js';
import { calledCodes } from '../football/called.js';
import { countsForCalls, countsForResults } from '../football/counted-snaps.js';
import { DEFAULT_EXPLOSIVE_THRESHOLDS, explosiveCodes, type ExplosiveThresholds } from '../football/explosive.js';
import { DEFAULT_SITUATIONS, situationCodes, type SituationSettings } from '../football/situations.js';
import { DEFAULT_SUCCESS_THRESHOLDS, successCodes, type SuccessThresholds } from '../football/success.js';
import type { TendencyPlays } from './tendency-plays.js';

/** What a clan may set about football, versioned, and frozen in every report. */
export interface FootballSettings {
  readonly situations: SituationSettings;
  readonly success: SuccessThresholds;
  readonly explosive: ExplosiveThresholds;
}

export const DEFAULT_FOOTBALL_SETTINGS: FootballSettings = {
  situations: DEFAULT_SITUATIONS,
  success: DEFAULT_SUCCESS_THRESHOLDS,
  explosive: DEFAULT_EXPLOSIVE_THRESHOLDS,
};

/** What football says about each play of a batch, under the given settings. */
export function classifyPlays(plays: PlayColumns, vocabulary: Vocabulary, settings: FootballSettings): TendencyPlays {
  const situations = situationCodes(plays, settings.situations);
  const hasResult = countsForResults(plays, vocabulary);
  const called = calledCodes(plays, vocabulary);
  return {
    plays,
    situation: situations.codes,
    situationNames: situations.names,
    counts: countsForCalls(plays, vocabulary),
    hasResult,
    success: successCodes(plays, vocabulary, settings.success, hasResult),
    explosive: explosiveCodes(plays, vocabulary, settings.explosive, hasResult, called),
    called,
  };
}
