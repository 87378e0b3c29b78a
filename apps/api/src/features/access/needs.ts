import { applyDecorators, SetMetadata, type ExecutionContext } from '@nestjs/common';
import { ApiExtension } from '@nestjs/swagger';
import type { Right } from '../../common/rights.js';

const NEEDS = 'needs';

/** The extension of the API's description that says which right an operation needs. */
export const RIGHT_EXTENSION = 'x-right';

/**
 * The right that a route, or every route of a controller, needs where it is not what its method says: reading the archive
 * for `GET`, and writing for everything else.
 */
export function Needs(right: Right): ClassDecorator & MethodDecorator {
  return applyDecorators(SetMetadata(NEEDS, right), ApiExtension(RIGHT_EXTENSION, right));
}

export function neededRight(context: ExecutionContext, method: string): Right {
  const told: unknown =
    Reflect.getMetadata(NEEDS, context.getHandler()) ?? Reflect.getMetadata(NEEDS, context.getClass());
  return (told as Right | undefined) ?? usualRight(method);
}

export function usualRight(method: string): Right {
  return method.toUpperCase() === 'GET' || method.toUpperCase() === 'HEAD' ? 'read' : 'write';
}
