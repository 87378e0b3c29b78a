import type { Response } from 'express';
import type { RoundReport } from '#domain/reports/round-report-shape.js';
import type { ReportNames } from '../../rendering/report-names.js';
import { roundReportCsv } from '../../rendering/round-report-csv.js';
import { roundReportMarkdown } from '../../rendering/round-report-markdown.js';
import { roundReportText } from '../../rendering/round-report-text.js';
import type { NamedReport } from './round-reports.service.js';

export const TYPES = ['application/json', 'text/markdown', 'text/plain'] as const;
/** Forms that need more than the report itself, or leave most of it out. */
export const READ_TYPES = [...TYPES, 'text/html', 'text/csv'] as const;

/** Sends a report in the form that was asked for; a page needs more than a report, and is sent otherwise. */
export function sendReport(
  response: Response,
  type: Exclude<(typeof READ_TYPES)[number], 'text/html'>,
  { id, report, names }: NamedReport,
): void {
  response.vary('Accept');
  switch (type) {
    case 'text/markdown':
      response.type('text/markdown; charset=utf-8').send(roundReportMarkdown(report, names));
      break;
    case 'text/plain':
      response.type('text/plain; charset=utf-8').send(roundReportText(report, names));
      break;
    case 'text/csv':
      response.attachment(`round-report-${id}.csv`).type('text/csv; charset=utf-8').send(roundReportCsv(report));
      break;
    case 'application/json':
      response.json({ id, ...report, ...pointsOf(report, names), opponent: names.player(report.playerId) });
  }
}

/** With what each says and who wrote it, null once it is gone. */
function pointsOf({ coachingPoints }: RoundReport, names: ReportNames): object {
  if (coachingPoints === undefined) return {};
  return {
    coachingPoints: coachingPoints.map((point) => {
      const { text, writtenBy, writtenAt } = names.coachingPoint(point.pointId, point.revision) ?? GONE;
      return { ...point, text, writtenBy, writtenAt };
    }),
  };
}

const GONE = { text: null, writtenBy: null, writtenAt: null };
