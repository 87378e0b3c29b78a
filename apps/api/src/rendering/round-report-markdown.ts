import type { RoundReport } from '#domain/reports/round-report-shape.js';
import type { ReportNames } from './report-names.js';

/** The report as Markdown. */
export declare function roundReportMarkdown(report: RoundReport, names: ReportNames): string;
