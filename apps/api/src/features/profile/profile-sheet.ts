import { csvOf, type CsvColumns } from '../../rendering/csv.js';
import type { UnshapedProfile } from './profile-response.js';
import type { DimensionResponse, SituationResponse, ValueShareResponse } from './profile.dto.js';

interface Line {
  readonly profile: UnshapedProfile;
  readonly situation: SituationResponse;
  readonly dimension: DimensionResponse;
  readonly value: ValueShareResponse;
}

const COLUMNS: CsvColumns<Line> = [
  ['player', ({ profile }) => profile.handle],
  ['side', ({ profile }) => profile.side],
  ['situation', ({ situation }) => situation.situation],
  ['dimension', ({ dimension }) => dimension.label],
  ['value', ({ value }) => value.label],
  ['count', ({ value }) => value.count],
  ['known', ({ dimension }) => dimension.known],
  ['snaps', ({ situation }) => situation.snaps],
  ['games', ({ situation }) => situation.games],
  ['share', ({ value }) => value.raw.share],
  ['lower', ({ value }) => value.raw.interval.lower],
  ['upper', ({ value }) => value.raw.interval.upper],
  ['shrunkShare', ({ value }) => value.shrunk?.share ?? null],
  ['shrunkLower', ({ value }) => value.shrunk?.interval.lower ?? null],
  ['shrunkUpper', ({ value }) => value.shrunk?.interval.upper ?? null],
  ['fieldShare', ({ value }) => value.field?.share ?? null],
  ['fieldKnown', ({ value }) => value.field?.known ?? null],
];

/** Every share of a profile as a line: counts, share, interval, and the field beside it. */
export function profileSheet(profile: UnshapedProfile): string {
  const lines = profile.situations.flatMap((unshaped) => {
    const situation = unshaped.toJSON();
    return situation.dimensions.flatMap((dimension) =>
      dimension.values.map((value): Line => ({ profile, situation, dimension, value })),
    );
  });
  return csvOf(COLUMNS, lines);
}
