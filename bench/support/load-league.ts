import { createReadStream, createWriteStream } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { leagueRecords, leagueSheet, type LeagueSize } from './league.js';
import { send, type BenchService } from './service.js';

/** Brings a league in as two files, its records and its plays, as a clan would. */
export async function loadLeague(service: BenchService, size: LeagueSize): Promise<void> {
  await send(service, 'application/x-ndjson', leagueRecords(size));
  const sheet = join(service.folder, 'sheet.csv');
  await pipeline(Readable.from(leagueSheet(size)), createWriteStream(sheet));
  await send(service, 'text/csv', Readable.toWeb(createReadStream(sheet)) as ReadableStream);
}
