import type { ReportFilm } from '../../rendering/report-film.js';
import type { ChartRow, PlaySecondRow } from './round-reports.repository.js';

/** Where a report's plays are on film, from what the reader may see. */
export function reportFilm(charts: readonly ChartRow[], plays: readonly PlaySecondRow[]): ReportFilm {
  const ofChart = new Map(
    charts.map(({ id, revision, url, offsetSeconds }) => [
      id,
      { revision, video: url === null ? null : { url, offsetSeconds: offsetSeconds ?? 0 } },
    ]),
  );
  const key = (chartId: string, playNumber: number): string => `${chartId} ${playNumber}`;
  const seconds = new Map(plays.map(({ chartId, playNumber, second }) => [key(chartId, playNumber), second]));
  return {
    chart: (chartId) => ofChart.get(chartId) ?? null,
    second: ({ chartId, playNumber }) => seconds.get(key(chartId, playNumber)) ?? null,
  };
}
