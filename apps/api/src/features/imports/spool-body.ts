import { createHash } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { ApiError } from '../../common/problems.js';
import type { Spool } from './spool.js';

export interface SpooledBody {
  readonly path: string;
  readonly sha256: Buffer;
}

/**
 * Writes a request's body to the spool while it arrives, so that a slow sender holds neither memory nor a transaction,
 * and refuses what no later step could read: too many bytes, bytes that are no UTF-8, NUL bytes, an early end.
 *
 * @param declaredBytes - the Content-Length, if the client sent one
 */
export async function spoolBody(
  body: Readable,
  spool: Spool,
  maximumBytes: number,
  declaredBytes: number | undefined,
): Promise<SpooledBody> {
  if (declaredBytes !== undefined && declaredBytes > maximumBytes) throw tooLarge(maximumBytes);
  const path = join(spool.folder, 'body');
  const hash = createHash('sha256');
  let bytes = 0;
  let row = 1;
  async function* checked(chunks: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
    const decoder = new TextDecoder('utf-8', { fatal: true });
    for await (const chunk of chunks) {
      bytes += chunk.length;
      if (bytes > maximumBytes) throw tooLarge(maximumBytes);
      const nul = chunk.indexOf(0);
      if (nul >= 0) throw unreadable(row + countLines(chunk.subarray(0, nul)), 'a NUL byte', 'text in UTF-8');
      try {
        decoder.decode(chunk, { stream: true });
      } catch {
        throw unreadable(row, 'bytes that are not UTF-8, in this row or the next ones', 'text in UTF-8');
      }
      row += countLines(chunk);
      hash.update(chunk);
      yield chunk;
    }
  }
  try {
    await pipeline(body, checked, createWriteStream(path));
  } catch (error) {
    if (error instanceof ApiError) throw error;
    throw new ApiError('request.incomplete', 'the connection ended before the whole file had arrived');
  }
  return { path, sha256: hash.digest() };
}

function tooLarge(maximumBytes: number): ApiError {
  return new ApiError('request.too_large', `a file may have ${maximumBytes} bytes; split it by games`);
}

function unreadable(row: number, found: string, expected: string): ApiError {
  return new ApiError('import.unreadable', `row ${row} holds ${found}`, {
    errors: [{ row, field: '', found, expected }],
  });
}

function countLines(chunk: Buffer): number {
  let lines = 0;
  for (let at = chunk.indexOf(10); at >= 0; at = chunk.indexOf(10, at + 1)) lines += 1;
  return lines;
}
