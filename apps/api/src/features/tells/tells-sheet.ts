import { csvOf, type CsvColumns } from '../../rendering/csv.js';
import type { CueAndCallResponse, TellsResponse } from './tells.dto.js';

interface Line {
  readonly status: 'tell' | 'unproven';
  readonly of: CueAndCallResponse;
  readonly adjustedPValue: number | null;
  readonly snapsToSettle: number | null;
}

const COLUMNS: CsvColumns<Line> = [
  ['status', ({ status }) => status],
  ['cue', ({ of }) => of.cue.label],
  ['seen', ({ of }) => of.cue.value],
  ['dimension', ({ of }) => of.dimension],
  ['call', ({ of }) => of.call.label],
  ['direction', ({ of }) => of.direction],
  ['count', ({ of }) => of.count],
  ['plays', ({ of }) => of.plays],
  ['countWithout', ({ of }) => of.countWithout],
  ['playsWithout', ({ of }) => of.playsWithout],
  ['difference', ({ of }) => of.difference],
  ['lower', ({ of }) => of.interval?.lower ?? null],
  ['upper', ({ of }) => of.interval?.upper ?? null],
  ['games', ({ of }) => of.games],
  ['gamesSeen', ({ of }) => of.gamesSeen],
  ['pValue', ({ of }) => of.pValue],
  ['adjustedPValue', ({ adjustedPValue }) => adjustedPValue],
  ['snapsToSettle', ({ snapsToSettle }) => snapsToSettle],
];

/** Tells, then leads, a line each; the status says which is which. */
export function tellsSheet({ tells, leads }: TellsResponse): string {
  return csvOf(COLUMNS, [
    ...tells.map((of): Line => ({ status: 'tell', of, adjustedPValue: of.adjustedPValue, snapsToSettle: null })),
    ...leads.map((of): Line => ({ status: 'unproven', of, adjustedPValue: null, snapsToSettle: of.snapsToSettle })),
  ]);
}
