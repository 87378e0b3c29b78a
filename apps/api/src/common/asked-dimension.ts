import { DIMENSION_NAMES, type DimensionName } from '#domain/tendencies/dimension-names.js';
import type { Side } from '#domain/tendencies/tendency-plays.js';
import { ApiError } from './problems.js';

/** Every dimension of either side, as a query may name it. */
export const ALL_DIMENSIONS: readonly DimensionName[] = [...DIMENSION_NAMES.offense, ...DIMENSION_NAMES.defense];

/**
 * The dimension that a query names.
 *
 * @param usual - where it names none
 * @throws ApiError `request.invalid` for one of the other side of the ball
 */
export function askedDimension(
  name: string | undefined,
  side: Side,
  usual: Readonly<Record<Side, DimensionName>>,
): DimensionName {
  if (name === undefined) return usual[side];
  const names: readonly DimensionName[] = DIMENSION_NAMES[side];
  const found = names.find((candidate) => candidate === name);
  if (found !== undefined) return found;
  throw new ApiError('request.invalid', 'that side has no such dimension', {
    errors: [{ field: 'dimension', found: name, expected: `one of: ${names.join(', ')}` }],
  });
}
