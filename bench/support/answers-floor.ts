import { mkdtemp, rm, chmod } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Pool } from 'pg';
import { startEmbeddedServer } from '#api/database/embedded-server.js';
import { elapsedMs, median } from './timing.js';

/**
 * Milliseconds that PostgreSQL takes for the counts behind the answers by one GROUP BY over as many plays: situation,
 * call and answer with count and sum, serial plan, a table of those columns alone. The median of five.
 */
export async function groupByMilliseconds(plays: number, players: number): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), 'roundbook-bench-'));
  // Under root the server runs as another user, who must be able to pass through.
  await chmod(folder, 0o711);
  const server = await startEmbeddedServer({ dataFolder: join(folder, 'data'), durable: false });
  const pool = new Pool({ connectionString: server.ownerUrl, max: 1 });
  // An idle connection that hears of the server's stopping ends nothing.
  pool.on('error', () => undefined);
  try {
    await pool.query(`set max_parallel_workers_per_gather = 0`);
    await pool.query(
      `create table snap as
         select (random() * 19)::int as situation, (random() ^ 2 * 12)::int as call, (random() ^ 2 * 12)::int as front,
                (random() ^ 2 * 12)::int as coverage, (random() ^ 2 * 12)::int as pressure,
                (random() * ${players})::int as offense, (random() - 0.5) as points
           from generate_series(1, ${plays})`,
    );
    await pool.query('vacuum analyze snap');
    const times: number[] = [];
    for (let round = 0; round < 5; round += 1) {
      times.push(
        await elapsedMs(() =>
          pool.query(
            `select count(*), sum(sum) from (
               select situation, call, front, coverage, pressure, count(*), sum(points), sum(points * points) as squares
                 from snap group by 1, 2, 3, 4, 5) cells`,
          ),
        ),
      );
    }
    return median(times);
  } finally {
    await pool.end();
    await server.stop();
    await rm(folder, { recursive: true, force: true });
  }
}
