import { resultWords, shareWords, valueWords } from '#domain/reports/claim-words.js';
import type { CallGrid, ResultClaim, ShareClaim, SideReport } from '#domain/reports/round-report-shape.js';
import { html, type Html } from '../html.js';
import type { Evidence } from './evidence.js';

/** A share in words, its counts leading to the plays. */
export function shareFigure(claim: ShareClaim, evidence: Evidence): Html {
  const counts = `${claim.count} of ${claim.known}`;
  return figure(
    shareWords(claim),
    counts,
    evidence.cite({ id: claim.id, title: shareTitle(claim), counts, plays: claim.plays }),
  );
}

/** A success rate in words, its counts leading to the plays. */
export function resultFigure(claim: ResultClaim, evidence: Evidence): Html {
  const { id, plays, successes, trials } = claim;
  const counts = `${successes} of ${trials}`;
  return figure(resultWords(claim), counts, evidence.cite({ id, title: resultTitle(claim), counts, plays, successes }));
}

/** A cell of the grid, leading to its plays. */
export function cellFigure(
  side: SideReport['side'],
  grid: CallGrid,
  row: number,
  column: number,
  evidence: Evidence,
): Html {
  const { label, known, cells } = grid.rows[row] ?? { label: '', known: 0, cells: [] };
  const cell = cells[column];
  if (cell === undefined || cell.count === 0) return html`0`;
  const { id, count, plays } = cell;
  const title = `${grid.columns[column]?.label ?? ''} (${grid.dimensionLabel}), ${side}, ${label}`;
  return evidence.cite({ id, title, counts: `${count} of ${known}`, plays });
}

/** The words begin with the counts; should they ever not, nothing is lost. */
function figure(words: string, counts: string, cited: Html): Html {
  // A number and its sign stay on one line.
  const bound = words.replaceAll(' %', '\u00a0%');
  return bound.startsWith(counts) ? html`${cited}${bound.slice(counts.length)}` : html`${cited}: ${bound}`;
}

function shareTitle(claim: ShareClaim): string {
  return `${valueWords(claim)}, ${claim.side}, ${claim.situation}`;
}

function resultTitle(claim: ResultClaim): string {
  const { label, dimensionLabel, side, situation } = claim;
  return dimensionLabel === null
    ? `Success, ${side}, ${label}`
    : `Success of ${valueWords(claim)}, ${side}, ${situation}`;
}
