import { createReadStream, createWriteStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { from as copyFrom, to as copyTo } from 'pg-copy-streams';
import { PLAY_COLUMNS } from '#api/features/imports/play-rows.js';
import { emptyCharts } from './support/empty-charts.js';
import { leagueRecords, leagueSheet, type LeagueSize } from './support/league.js';
import { send, startService, type BenchService } from './support/service.js';
import { elapsedMs, median } from './support/timing.js';

const LEAGUE: LeagueSize = { games: 667, playsAGame: 150, gamesOfTheFirst: 40, players: 60, seed: 11 };
const ROUNDS = 3;
const LEAST_RATIO = 0.3;
const MOST_GROWTH_MB = 150;

/**
 * 100,000 plays in one import through HTTP, against the owner's COPY of the very same rows into the same indexed table:
 * how many rows a second either brings in, by turns. Memory is that of the service's process.
 */
export async function benchImport(): Promise<boolean> {
  const service = await startService();
  try {
    await send(service, 'application/x-ndjson', leagueRecords(LEAGUE));
    const sheet = join(service.folder, 'sheet.csv');
    await pipeline(Readable.from(leagueSheet(LEAGUE)), createWriteStream(sheet));
    const rows = LEAGUE.games * LEAGUE.playsAGame;
    const mb = (await stat(sheet)).size / 1e6;
    console.log(`${rows} plays of ${LEAGUE.games} games, ${mb.toFixed(1)} MB of CSV`);

    const imports: number[] = [];
    const copies: number[] = [];
    let growthMb = 0;
    for (let round = 0; round < ROUNDS; round += 1) {
      await emptyCharts(service);
      await service.resetPeak();
      const { nowMb } = await service.memory();
      imports.push(await elapsedMs(() => send(service, 'text/csv', openAsBody(sheet))));
      growthMb = Math.max(growthMb, (await service.memory()).peakMb - nowMb);
      copies.push(await copyOfTheSameRows(service, round));
    }
    const ratio = median(copies) / median(imports);
    console.log(`import over HTTP        ${seconds(imports)}  ${perSecond(rows, imports)} plays/s`);
    console.log(`COPY as the owner       ${seconds(copies)}  ${perSecond(rows, copies)} plays/s`);
    console.log(`ratio                   ${ratio.toFixed(2)} (at least ${LEAST_RATIO})`);
    console.log(`growth of the process   ${growthMb.toFixed(0)} MB (at most ${MOST_GROWTH_MB})`);
    return ratio >= LEAST_RATIO && growthMb <= MOST_GROWTH_MB;
  } finally {
    await service.close();
  }
}

/** Milliseconds that COPY takes for the rows that the import has just written, into the same table made empty. */
async function copyOfTheSameRows({ owner, folder }: BenchService, round: number): Promise<number> {
  const file = join(folder, `rows-${round}`);
  const columns = PLAY_COLUMNS.join(', ');
  const client = await owner.connect();
  try {
    await pipeline(client.query(copyTo(`copy (select ${columns} from play) to stdout`)), createWriteStream(file));
    await client.query('truncate play');
    // Row-level security, forced on the owner too, refuses COPY altogether; the floor is COPY without it.
    await client.query('alter table play no force row level security');
    return await elapsedMs(() =>
      pipeline(createReadStream(file), client.query(copyFrom(`copy play (${columns}) from stdin`))),
    );
  } finally {
    await client.query('alter table play force row level security');
    client.release();
  }
}

function openAsBody(path: string): ReadableStream {
  return Readable.toWeb(createReadStream(path)) as ReadableStream;
}

function seconds(times: readonly number[]): string {
  return `${(median(times) / 1000).toFixed(2)} s`;
}

function perSecond(rows: number, times: readonly number[]): string {
  return Math.round(rows / (median(times) / 1000)).toLocaleString('en');
}
