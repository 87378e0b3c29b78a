import type { AskedCall, AskedDefense } from '../answers/asked-call.js';
import type { DimensionName } from '../tendencies/dimension-names.js';
import type { Side } from '../tendencies/tendency-plays.js';
import { TREND_DIMENSIONS } from '../trends/trend-dimensions.js';
import type { Trend, Trends } from '../trends/trends.js';

const PARTS = [
  ['concept', 'conceptId'],
  ['callFamily', 'familyId'],
  ['formation', 'formationId'],
  ['front', 'frontId'],
  ['coverage', 'coverageId'],
  ['pressure', 'pressureId'],
] as const satisfies readonly (readonly [DimensionName, keyof (AskedCall & AskedDefense)])[];

/**
 * What the trends of a side say of a call, so that the call's own page never finds a rise that they do not.
 *
 * @returns null where the call was not put to the test
 */
export function trendOfCall({ trends }: Trends, side: Side, asked: AskedCall & AskedDefense): Trend | null {
  const terms = new Map<DimensionName, number>(
    PARTS.flatMap(([name, part]) => (asked[part] == null ? [] : [[name, asked[part]] as const])),
  );
  const dimension = TREND_DIMENSIONS[side].find(
    ({ parts }) => parts.length === terms.size && parts.every((part) => terms.has(part)),
  );
  if (dimension === undefined) return null;
  const { name, parts } = dimension;
  const isAsked = ({ dimension: of, value }: Trend): boolean =>
    of === name && value.every(({ termId }, part) => termId !== null && termId === terms.get(parts[part] ?? 'concept'));
  return trends.find(isAsked) ?? null;
}
