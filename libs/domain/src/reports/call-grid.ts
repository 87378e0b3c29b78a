import type { DimensionName } from '../tendencies/dimension-names.js';
import type { Profile, SituationProfile } from '../tendencies/profile-shape.js';
import type { Side } from '../tendencies/tendency-plays.js';
import { claimId } from './claim-ids.js';
import type { CallGrid, CallGridCell, ReportPlay } from './round-report-shape.js';
import { allSnaps, references, type ClaimSource } from './share-claims.js';

/** What is laid out against situations. */
const DIMENSION: Readonly<Record<Side, DimensionName>> = { offense: 'callFamily', defense: 'coverage' };
/** More columns than this cannot be read on paper; the rest is added up. A choice, no source. */
const MOST_COLUMNS = 7;
const OTHERS = { valueKey: 'any other', label: 'any other' };

/**
 * Situations against what was called in them, as counts with their plays. The columns are the values used most over all
 * snaps, and one for all others where there are more; the first row is all snaps. Null where nothing is known.
 */
export function callGrid(source: ClaimSource, { side, situations }: Profile): CallGrid | null {
  const dimension = DIMENSION[side];
  const overall = allSnaps(situations)?.dimensions.find((candidate) => candidate.dimension === dimension);
  const used = overall?.values.filter(({ count }) => count > 0) ?? [];
  if (overall === undefined || used.length === 0) return null;
  const own = used.slice(0, used.length > MOST_COLUMNS ? MOST_COLUMNS - 1 : MOST_COLUMNS);
  const columns = own.map(({ value }) => ({ valueKey: value.key, label: value.label }));
  const ownKeys = columns.map(({ valueKey }) => valueKey);
  return {
    dimension,
    dimensionLabel: overall.label,
    columns: own.length < used.length ? [...columns, OTHERS] : columns,
    rows: situations.flatMap((situation) => {
      const { known, plays } = playsByValue(source, situation, dimension);
      if (known === 0) return [];
      const cell = (valueKey: string, ofCell: readonly ReportPlay[]): CallGridCell => ({
        id: claimId([side, situation.situation, dimension, valueKey]),
        count: ofCell.length,
        plays: ofCell,
      });
      const cells = ownKeys.map((key) => cell(key, plays.get(key) ?? []));
      const others = [...plays].filter(([key]) => !ownKeys.includes(key)).flatMap(([, ofOther]) => ofOther);
      return [
        {
          situation: situation.situation,
          label: situation.situation,
          snaps: situation.snaps,
          known,
          cells: own.length < used.length ? [...cells, cell(OTHERS.valueKey, others)] : cells,
        },
      ];
    }),
  };
}

function playsByValue(
  { facts }: ClaimSource,
  { dimensions }: SituationProfile,
  name: DimensionName,
): { readonly known: number; readonly plays: ReadonlyMap<string, readonly ReportPlay[]> } {
  const dimension = dimensions.find((candidate) => candidate.dimension === name);
  return {
    known: dimension?.known ?? 0,
    plays: new Map(
      dimension?.values.map(({ value, evidence }) => [value.key, references(facts.plays, evidence.places())]),
    ),
  };
}
