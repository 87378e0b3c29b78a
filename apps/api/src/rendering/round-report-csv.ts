import type { RoundReport, ShareClaim } from '#domain/reports/round-report-shape.js';
import { csvOf, type CsvColumns } from './csv.js';

const COLUMNS: CsvColumns<ShareClaim> = [
  ['claimId', ({ id }) => id],
  ['side', ({ side }) => side],
  ['situation', ({ situation }) => situation],
  ['dimension', ({ dimensionLabel }) => dimensionLabel],
  ['value', ({ label }) => label],
  ['count', ({ count }) => count],
  ['known', ({ known }) => known],
  ['snaps', ({ snaps }) => snaps],
  ['games', ({ games }) => games],
  ['situationGames', ({ situationGames }) => situationGames],
  ['share', ({ share }) => fourPlaces(share)],
  ['lower', ({ interval }) => fourPlaces(interval.lower)],
  ['upper', ({ interval }) => fourPlaces(interval.upper)],
  ['shrunkShare', ({ shrunkShare }) => fourPlaces(shrunkShare)],
  ['shrunkLower', ({ shrunkInterval }) => fourPlaces(shrunkInterval?.lower ?? null)],
  ['shrunkUpper', ({ shrunkInterval }) => fourPlaces(shrunkInterval?.upper ?? null)],
  ['fieldShare', ({ fieldShare }) => fourPlaces(fieldShare)],
  ['fieldKnown', ({ fieldKnown }) => fieldKnown],
];

/** Every share that the report states, once each, as a sheet: counts, share, interval, and the field beside it. */
export function roundReportCsv({ offense, defense }: RoundReport): string {
  const claims = new Map<string, ShareClaim>();
  for (const side of [offense, defense]) {
    const stated = [
      ...side.mostUsed,
      ...side.bySituation.flatMap((situation) => situation.claims),
      ...side.standsOut.map(({ claim }) => claim),
    ];
    for (const claim of stated) claims.set(claim.id, claim);
  }
  return csvOf(COLUMNS, [...claims.values()]);
}

function fourPlaces(share: number | null): number | null {
  return share === null ? null : Math.round(share * 10_000) / 10_000;
}
