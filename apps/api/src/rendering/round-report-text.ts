import type { RoundReport } from '#domain/reports/round-report-shape.js';
import type { ReportNames } from './report-names.js';

/** The report as plain text, 100 columns wide. */
export declare function roundReportText(report: RoundReport, names: ReportNames): string;
