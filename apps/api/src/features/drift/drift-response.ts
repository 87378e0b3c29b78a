import type { PlayColumns } from '#domain/charting/play-columns.js';
import type { CountedShare } from '#domain/tendencies/decisions/counted-share.js';
import type { EstimatedShare } from '#domain/tendencies/drift/clustered-difference.js';
import type { VersionChange } from '#domain/tendencies/drift/change-of-version.js';
import type { DimensionDrift } from '#domain/tendencies/drift/drift.js';
import type { Periods } from '#domain/tendencies/drift/periods.js';
import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import {
  dimensionDriftWords,
  driftedShareWords,
  versionChangeWords,
  type StretchWords,
} from '#domain/tendencies/words/drift-words.js';
import type { Voice } from '#domain/tendencies/words/voice.js';
import { countedShare, interval, orNull, rounded, roundedP, value } from '../../common/figures.js';
import { playReferences } from '../../common/play-reference.dto.js';
import type {
  DimensionDriftResponse,
  MoveResponse,
  PeriodResponse,
  PeriodShareResponse,
  VersionChangeResponse,
} from './drift.dto.js';

/** @param found - all that was looked at, this one among it */
export function dimensionDrift(
  drift: DimensionDrift,
  found: readonly DimensionDrift[],
  plays: PlayColumns,
  voice: Voice,
  when?: StretchWords,
): DimensionDriftResponse {
  const { dimension, label, earlierGames, recentGames, divergence, pValue, drifted, shares } = drift;
  return {
    words: dimensionDriftWords(drift, found.length),
    dimension,
    label,
    earlierGames,
    recentGames,
    divergence: rounded(divergence),
    pValue: roundedP(pValue),
    drifted,
    shares: shares.map((share) => ({
      ...value(share.value),
      words: driftedShareWords(dimension, share, found, voice, when),
      earlier: periodShare(share.earlier, plays),
      recent: periodShare(share.recent, plays),
      difference: orNull(share.difference, interval),
      pValue: roundedP(share.pValue),
      moved: share.moved,
    })),
  };
}

export function versionChange(change: VersionChange, plays: PlayColumns, voice: Voice): VersionChangeResponse {
  return {
    ...value(change.value),
    words: versionChangeWords(change, voice),
    dimension: change.dimension,
    earlier: periodShare(change.earlier, plays),
    recent: periodShare(change.recent, plays),
    player: move(change.player),
    field: move(change.field),
    beyond: move(change.beyond),
    verdict: change.verdict,
  };
}

/** Games and counting snaps of a period. */
export function period(
  label: string,
  { plays, counts }: TendencyPlays,
  periods: Periods,
  wanted: number,
): PeriodResponse {
  const games = new Set<string>();
  let snaps = 0;
  for (let play = 0; play < counts.length; play += 1) {
    if (counts[play] !== 1 || periods[play] !== wanted) continue;
    snaps += 1;
    games.add(plays.charts[plays.chartIndex[play] ?? -1]?.gameId ?? '');
  }
  return { label, games: games.size, snaps };
}

function periodShare(share: CountedShare, plays: PlayColumns): PeriodShareResponse {
  return { ...countedShare(share), plays: playReferences(share.evidence, plays) };
}

function move({ share, interval: bounds }: EstimatedShare): MoveResponse {
  return { difference: rounded(share), interval: interval(bounds) };
}
