import type { BenchService } from './service.js';

/** Takes all charts and plays out, so that every round of an import begins alike. */
export async function emptyCharts({ owner }: BenchService): Promise<void> {
  await owner.query('truncate chart_pack, play, chart cascade');
  await owner.query('checkpoint').catch(() => undefined);
}
