import type { ServerResponse } from 'node:http';

/** What becomes of what a route's handler returns before it is sent. */
export type Shaping = (body: object) => unknown;

/** A place on every answer from its beginning: one that came later would make it an object of another shape. */
export interface ShapedResponse {
  shaping: Shaping | null;
}

export function setShaping(response: ServerResponse, shaping: Shaping): void {
  (response as ServerResponse & ShapedResponse).shaping = shaping;
}

/** The body as it is to be sent. */
export function shaped(response: ServerResponse & Partial<ShapedResponse>, body: unknown): unknown {
  const { shaping } = response;
  if (shaping == null || typeof body !== 'object' || body === null) return body;
  response.shaping = null;
  return shaping(body);
}
