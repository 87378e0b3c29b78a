import type { PlayColumns } from '../charting/play-columns.js';
import { ALL_SNAPS } from '../tendencies/situation-keys.js';
import type { DimensionName } from '../tendencies/dimension-names.js';
import type { DimensionProfile, SituationProfile } from '../tendencies/profile-shape.js';
import type { Side, TendencyPlays } from '../tendencies/tendency-plays.js';
import type { ValueShare } from '../tendencies/value-share.js';
import { claimId } from './claim-ids.js';
import type { ReportInterval, ReportPlay, ShareClaim } from './round-report-shape.js';

/** Turns figures of a profile into claims of a report. */
export interface ClaimSource {
  readonly side: Side;
  readonly facts: TendencyPlays;
}

/** The claim that a value's share makes. */
export function shareClaim(
  { side, facts }: ClaimSource,
  situation: SituationProfile,
  dimension: DimensionProfile,
  share: ValueShare,
): ShareClaim {
  const { value, raw, shrunk, field } = share;
  const places = share.evidence.places();
  return {
    id: claimId([side, situation.situation, dimension.dimension, value.key]),
    side,
    situation: situation.situation,
    dimension: dimension.dimension,
    dimensionLabel: dimension.label,
    valueKey: value.key,
    termId: value.termId,
    label: value.label,
    count: share.count,
    known: dimension.known,
    snaps: situation.snaps,
    games: new Set(places.map((play) => gameOf(facts.plays, play))).size,
    situationGames: situation.games,
    share: raw.share,
    interval: plain(raw.interval),
    shrunkShare: shrunk?.share ?? null,
    shrunkInterval: shrunk === null ? null : plain(shrunk.interval),
    fieldShare: field?.share ?? null,
    fieldKnown: field?.known ?? 0,
    conflict: share.conflict,
    plays: references(facts.plays, places),
  };
}

/** Which dimensions a list of claims draws on, and how many values of each. */
export type Picks = readonly (readonly [dimension: DimensionName, values: number])[];

/** What is said first of a side; others follow in the profile. A choice, no source. */
export const MOST_USED: Readonly<Record<Side, Picks>> = {
  offense: [
    ['called', 1],
    ['callFamily', 3],
    ['concept', 3],
    ['formation', 2],
    ['offensivePersonnel', 1],
    ['backfield', 1],
    ['motion', 1],
    ['direction', 1],
    ['targetDepth', 1],
    ['tempo', 1],
  ],
  defense: [
    ['coverage', 3],
    ['coverageFamily', 1],
    ['shell', 2],
    ['front', 2],
    ['boxCount', 1],
    ['pressure', 1],
    ['rushers', 1],
    ['manualDefenderAction', 1],
  ],
};

/** What is said of each situation. */
export const BY_SITUATION: Readonly<Record<Side, Picks>> = {
  offense: [
    ['called', 1],
    ['callFamily', 1],
    ['concept', 1],
    ['formation', 1],
  ],
  defense: [
    ['coverage', 1],
    ['shell', 1],
    ['front', 1],
    ['pressure', 1],
  ],
};

/**
 * The values used most in one situation.
 *
 * @param fewest - plays that a value must have to be claimed; what was seen once is no habit
 */
export function topClaims(
  source: ClaimSource,
  situation: SituationProfile,
  picks: Picks,
  fewest: number,
): ShareClaim[] {
  return picks.flatMap(([name, most]) => {
    const dimension = situation.dimensions.find((candidate) => candidate.dimension === name);
    if (dimension === undefined) return [];
    return dimension.values
      .filter(({ count }) => count >= fewest)
      .slice(0, most)
      .map((share) => shareClaim(source, situation, dimension, share));
  });
}

/** All snaps of a profile's situations, or undefined for an empty profile. */
export function allSnaps(situations: readonly SituationProfile[]): SituationProfile | undefined {
  return situations.find(({ situation }) => situation === ALL_SNAPS);
}

export function references(plays: PlayColumns, places: readonly number[]): ReportPlay[] {
  return places.map((play) => ({
    chartId: plays.charts[plays.chartIndex[play] ?? -1]?.chartId ?? '',
    playNumber: plays.playNumber[play] ?? -1,
  }));
}

export function gameOf(plays: PlayColumns, play: number): string {
  return plays.charts[plays.chartIndex[play] ?? -1]?.gameId ?? '';
}

/** A copy that holds nothing but the bounds. */
export function plain({ lower, upper }: ReportInterval): ReportInterval {
  return { lower, upper };
}
