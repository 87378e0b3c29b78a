import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { Request } from 'express';
import { matchesTag } from './etag.js';
import { isPlainObject } from './merge-patch.js';
import { ApiError } from './problems.js';

/** Under which media types a change may come; the second is what clients send that do not know the first. */
export const PATCH_TYPES = ['application/merge-patch+json', 'application/json'];

/** A change as it came in: what it was made from, and what is to become of it. */
export interface Change {
  readonly ifMatch: string;
  /** JSON merge patch. */
  readonly patch: Readonly<Record<string, unknown>>;
}

/** The change of a PATCH request. Without If-Match it is refused: it could undo what its sender has not seen. */
export const WithChange = createParamDecorator((_: unknown, context: ExecutionContext): Change => {
  const request = context.switchToHttp().getRequest<Request>();
  if (request.is(PATCH_TYPES) === false) {
    throw new ApiError('request.unsupported_type', `a change comes as ${PATCH_TYPES.join(' or ')}`);
  }
  const ifMatch = requiredIfMatch(request);
  const patch: unknown = request.body;
  if (!isPlainObject(patch)) throw new ApiError('request.invalid', 'a change is a JSON object');
  return { ifMatch, patch };
});

/** The If-Match of a removal, and of a change that is no PATCH; refused without one for the same reason. */
export const WithIfMatch = createParamDecorator((_: unknown, context: ExecutionContext): string => {
  return requiredIfMatch(context.switchToHttp().getRequest<Request>());
});

function requiredIfMatch({ headers }: Request): string {
  const ifMatch = headers['if-match'];
  if (ifMatch !== undefined) return ifMatch;
  throw new ApiError('request.precondition_required', 'send the ETag of what you read as If-Match');
}

/** As If-Match: whatever it has become. For what is only ever made and removed, and for forms, which show what they name. */
export const ANY_VERSION = '*';

/** @throws ApiError `request.precondition_failed` when somebody else changed the resource since it was read */
export function requireCurrent(ifMatch: string, etag: string): void {
  if (matchesTag(ifMatch, etag)) return;
  throw new ApiError('request.precondition_failed', 'it was changed since; read it again and decide anew');
}
