import { inFolder, readSettings } from '../config/settings.js';
import { connected } from '../database/connected.js';
import { joinDatabase } from '../database/open-database.js';
import { queryingOf, type Querying } from '../database/querying.js';
import { ChartPacksRepository, type ChartKey } from '../features/charts/chart-packs.repository.js';
import { runCommand } from './run-command.js';

const USAGE = 'usage: npm run rebuild-packs\nWrites the packed copy of every chart anew from its plays.';
const CHARTS_AT_A_TIME = 500;

/** Writes the packed copy of every chart anew from its rows, which are the truth. Safe to run at any time, and twice. */
await runCommand({ usage: USAGE, options: {} }, async () => {
  const database = await joinDatabase(inFolder(readSettings(), 'main'), () => undefined);
  try {
    const count = await connected(database.ownerUrl, (owner) => rebuildAll(queryingOf(owner)));
    process.stdout.write(`${count} packed copies written\n`);
  } finally {
    await database.close();
  }
});

async function rebuildAll(db: Querying): Promise<number> {
  const packs = new ChartPacksRepository();
  let count = 0;
  let after: ChartKey | null = null;
  for (;;) {
    const charts: ChartKey[] = await packs.chartsAfter(db, after, CHARTS_AT_A_TIME);
    for (const chart of charts) await packs.rebuild(db, chart);
    count += charts.length;
    after = charts.at(-1) ?? null;
    if (charts.length < CHARTS_AT_A_TIME) return count;
  }
}
