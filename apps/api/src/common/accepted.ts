import type { Request } from 'express';
import { ApiError } from './problems.js';

/**
 * The media type to answer with: of those that the client accepts the one it likes best, the first where it has no wish.
 *
 * @throws ApiError `request.not_acceptable`
 * @see RFC 9110, section 12.5.1
 */
export function accepted<Type extends string>(request: Request, types: readonly Type[]): Type {
  const wanted = request.accepts([...types]);
  const type = types.find((one) => one === wanted);
  if (type === undefined) throw new ApiError('request.not_acceptable', `this can be had as ${types.join(', ')}`);
  return type;
}
