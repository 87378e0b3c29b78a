import type { Response } from 'express';
import type { RoundReport } from '#domain/reports/round-report-shape.js';
import { pageFrame, sendAs } from '../../common/page-policy.js';
import type { ReportNames } from '../../rendering/report-names.js';
import { roundReportCsv } from '../../rendering/round-report-csv.js';
import { roundReportMarkdown } from '../../rendering/round-report-markdown.js';
import { roundReportText } from '../../rendering/round-report-text.js';
import type { NamedReport } from './round-reports.service.js';

export const TYPES = ['application/json', 'text/markdown', 'text/plain'] as const;
/** Forms that need more than the report itself, or leave most of it out. */
export const READ_TYPES = [...TYPES, 'text/html', 'text/csv'] as const;

type DataType = Exclude<(typeof READ_TYPES)[number], 'text/html'>;

/** Sends a report in the form that was asked for; a page needs more than a report, and is sent otherwise. */
export function sendReport(response: Response, type: DataType, named: NamedReport): void {
  if (type === 'text/csv') response.attachment(`round-report-${named.id}.csv`);
  sendAs(response, type, reportBody(named, type), pageFrame('any'));
}

function reportBody({ id, report, names }: NamedReport, type: DataType): object | string {
  switch (type) {
    case 'text/markdown':
      return roundReportMarkdown(report, names);
    case 'text/plain':
      return roundReportText(report, names);
    case 'text/csv':
      return roundReportCsv(report);
    case 'application/json':
      return { id, ...report, ...pointsOf(report, names), opponent: names.player(report.playerId) };
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
