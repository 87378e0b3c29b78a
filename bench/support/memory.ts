import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** Bytes that stay after a full collection, typed arrays included. */
export function retainedBytes(): number {
  setFlagsFromString('--expose-gc');
  // Buffers of arrays that were collected are given back by the collection after it.
  for (let pass = 0; pass < 4; pass += 1) runInNewContext('gc()');
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}
