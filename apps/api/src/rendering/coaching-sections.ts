import type { AttachedPoint } from '#domain/reports/coaching/attached-point.js';
import type { RoundReport } from '#domain/reports/round-report-shape.js';
import { WITHHELD_GAME, type PointText, type ReportNames } from './report-names.js';
import type { Section } from './section-shape.js';
import { list } from './blocks.js';

/** Where a page links to, and what the section is called. */
export const POINTS_PART = { id: 'coaching-points', title: 'Our coaching points' } as const;

/** `Keep the edge set. (Marlow, 2026-03-01, revision 2)` */
export function pointWords({
  text,
  writtenBy,
  writtenAt,
  revision,
}: PointText & { readonly revision: number }): string {
  const version = revision === 1 ? '' : `, revision ${revision}`;
  return `${text} (${writtenBy}, ${writtenAt.slice(0, 10)}${version})`;
}

/** What the clan keeps on the opponent, on calls and on plays; what it keeps on answered calls stands beside those. */
export function coachingSections(report: RoundReport, names: ReportNames): Section[] {
  const answered = new Set(report.answers?.calls.flatMap(({ id, answers }) => [id, ...answers.map((line) => line.id)]));
  const items = readable(report, names)
    .filter(({ point: { claimId } }) => claimId === null || !answered.has(claimId))
    .map(({ point, words }) => `${subjectOf(point, report, names)}: ${words}`);
  if (items.length === 0) return [];
  return [{ title: POINTS_PART.title, blocks: [list(items)] }];
}

/** What the clan keeps on an answered call or on one of its answers. */
export function pointsOnClaim(report: RoundReport, names: ReportNames, claimId: string): string[] {
  return readable(report, names)
    .filter(({ point }) => point.claimId === claimId)
    .map(({ words }) => words);
}

/** Those that are still kept and that the reader may read. */
function readable(
  { coachingPoints = [] }: RoundReport,
  names: ReportNames,
): readonly { readonly point: AttachedPoint; readonly words: string }[] {
  return coachingPoints.flatMap((point) => {
    const { pointId, revision } = point;
    const text = names.coachingPoint(pointId, revision);
    return text === null ? [] : [{ point, words: pointWords({ ...text, revision }) }];
  });
}

function subjectOf({ on, label, play }: AttachedPoint, { sample }: RoundReport, names: ReportNames): string {
  if (play !== null) {
    const chart = sample.charts.find(({ chartId }) => chartId === play.chartId);
    return `play ${play.playNumber} of ${names.game(chart?.gameId ?? '') ?? WITHHELD_GAME}`;
  }
  return on === 'opponent' ? 'on the opponent' : (label ?? on);
}
