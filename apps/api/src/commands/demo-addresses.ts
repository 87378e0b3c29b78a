import type { ReadyDemo } from './demo-league.js';

/**
 * What a person is told who has started the demo.
 *
 * @param judgedReportId - the report whose card can be read; null where the player has finished no match
 */
export function demoAddresses(
  url: string,
  { key, rivalKey, reportId }: ReadyDemo,
  judgedReportId: string | null,
): string {
  const report = `${url}/v1/round-reports/${reportId}`;
  return [
    `API            ${url}/v1`,
    `documentation  ${url}/docs`,
    `demo key       ${key}`,
    `another clan's ${rivalKey}`,
    `this report    ${report}`,
    ...(judgedReportId === null ? [] : [`report card    ${url}/v1/round-reports/${judgedReportId}/report-card`]),
    '',
    `curl -H 'Authorization: Bearer ${key}' -H 'Accept: text/html' \\`,
    `  ${report} > report.html   # the same report as a page to print`,
    '',
    'Ctrl-C stops it. The data stays, and the next start is fast.',
    '',
  ].join('\n');
}
