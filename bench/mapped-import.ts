import { createReadStream, createWriteStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { messySheet, MESSY_MAPPING, type MessySheetSize } from '../test/support/messy-sheet.js';
import { emptyCharts } from './support/empty-charts.js';
import { gameOf, handleOf, leagueRecords, leagueSheet, type LeagueSize } from './support/league.js';
import { send, startService, type BenchService } from './support/service.js';
import { elapsedMs, median } from './support/timing.js';

const LEAGUE: LeagueSize = { games: 667, playsAGame: 150, gamesOfTheFirst: 667, players: 60, seed: 11 };
const MESSY: MessySheetSize = { games: LEAGUE.games, playsAGame: LEAGUE.playsAGame, seed: 12 };
const ROUNDS = 3;
const MOST_RATIO = 2;

/**
 * 100,000 messy rows of a person's own sheet through a mapping, against 100,000 rows in our own words, both over HTTP, by
 * turns. The mapped rows say fewer fields, but their cells are split, converted and asked about.
 */
export async function benchMappedImport(): Promise<boolean> {
  const service = await startService();
  try {
    await send(service, 'application/x-ndjson', leagueRecords(LEAGUE));
    const plain = join(service.folder, 'plain.csv');
    const messy = join(service.folder, 'messy.csv');
    await pipeline(Readable.from(leagueSheet(LEAGUE)), createWriteStream(plain));
    const games = Array.from({ length: LEAGUE.games }, (_, game) => gameOf(game));
    await pipeline(Readable.from(messySheet(MESSY, games)), createWriteStream(messy));
    const mapping = await keepMapping(service);
    const rows = LEAGUE.games * LEAGUE.playsAGame;
    console.log(`${rows} rows; in our words ${await megabytes(plain)}, messy ${await megabytes(messy)}`);

    const mapped: number[] = [];
    const unmapped: number[] = [];
    for (let round = 0; round < ROUNDS; round += 1) {
      await emptyCharts(service);
      mapped.push(await elapsedMs(() => send(service, 'text/csv', bodyOf(messy), `?mapping=${mapping}`)));
      await emptyCharts(service);
      unmapped.push(await elapsedMs(() => send(service, 'text/csv', bodyOf(plain))));
    }
    const ratio = median(mapped) / median(unmapped);
    console.log(`messy, with a mapping   ${(median(mapped) / 1000).toFixed(2)} s`);
    console.log(`in our own words        ${(median(unmapped) / 1000).toFixed(2)} s`);
    console.log(`ratio                   ${ratio.toFixed(2)} (at most ${MOST_RATIO})`);
    return ratio <= MOST_RATIO;
  } finally {
    await service.close();
  }
}

async function keepMapping(service: BenchService): Promise<string> {
  const response = await fetch(`${service.url}/v1/sheet-mappings`, {
    method: 'POST',
    headers: { Authorization: `Bearer ${service.key}`, 'Content-Type': 'application/json' },
    // The first player is in every game.
    body: JSON.stringify({ ...MESSY_MAPPING, us: handleOf(0) }),
  });
  if (!response.ok) throw new Error(`the mapping answered ${response.status}: ${await response.text()}`);
  const { id } = (await response.json()) as { id: string };
  return id;
}

async function megabytes(path: string): Promise<string> {
  return `${((await stat(path)).size / 1e6).toFixed(1)} MB`;
}

function bodyOf(path: string): ReadableStream {
  return Readable.toWeb(createReadStream(path)) as ReadableStream;
}
