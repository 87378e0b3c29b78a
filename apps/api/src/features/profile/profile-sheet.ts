import type { DimensionProfile, Profile, SituationProfile } from '#domain/tendencies/profile-shape.js';
import type { ValueShare } from '#domain/tendencies/value-share.js';
import { orNull, rounded } from '../../common/figures.js';
import { csvOf, type CsvColumns } from '../../rendering/csv.js';

interface Line {
  readonly handle: string;
  readonly profile: Profile;
  readonly situation: SituationProfile;
  readonly dimension: DimensionProfile;
  readonly value: ValueShare;
}

const COLUMNS: CsvColumns<Line> = [
  ['player', ({ handle }) => handle],
  ['side', ({ profile }) => profile.side],
  ['situation', ({ situation }) => situation.situation],
  ['dimension', ({ dimension }) => dimension.label],
  ['value', ({ value }) => value.value.label],
  ['count', ({ value }) => value.count],
  ['known', ({ dimension }) => dimension.known],
  ['snaps', ({ situation }) => situation.snaps],
  ['games', ({ situation }) => situation.games],
  ['share', ({ value }) => rounded(value.raw.share)],
  ['lower', ({ value }) => rounded(value.raw.interval.lower)],
  ['upper', ({ value }) => rounded(value.raw.interval.upper)],
  ['shrunkShare', ({ value }) => orNull(value.shrunk, ({ share }) => rounded(share))],
  ['shrunkLower', ({ value }) => orNull(value.shrunk, ({ interval }) => rounded(interval.lower))],
  ['shrunkUpper', ({ value }) => orNull(value.shrunk, ({ interval }) => rounded(interval.upper))],
  ['fieldShare', ({ value }) => orNull(value.field, ({ share }) => rounded(share))],
  ['fieldKnown', ({ value }) => value.field?.known ?? null],
];

/** Every share of a profile as a line: counts, share, interval, and the field beside it. */
export function profileSheet(handle: string, profile: Profile): string {
  const lines = profile.situations.flatMap((situation) =>
    situation.dimensions.flatMap((dimension) =>
      dimension.values.map((value): Line => ({ handle, profile, situation, dimension, value })),
    ),
  );
  return csvOf(COLUMNS, lines);
}
