import type { ReportInterval } from '#domain/reports/round-report-shape.js';
import { percent } from '#domain/tendencies/words/count-words.js';
import { html, type Html } from '../html.js';
import { shortened } from '../plain-words.js';
import { shareAxis } from './share-axis.js';
import { place, svgPicture } from './svg-picture.js';

/** A share with what it is known by and what it is held against; all in [0, 1]. */
export interface ShareDot {
  readonly label: string;
  readonly count: number;
  readonly known: number;
  readonly share: number;
  readonly interval: ReportInterval;
  readonly field: number | null;
}

/** As narrow as a phone, with each label above its line, so that nothing has to shrink there. */
const WIDTH = 360;
const LEFT = 12;
const SCALE = WIDTH - 2 * LEFT;
const ROW = 34;
const AXIS = 22;

/** Shares as dots, their intervals as lines, and the field as open diamonds on a scale from nothing to all. */
export function shareDotsPlot(id: string, title: string, dots: readonly ShareDot[]): Html {
  const bottom = dots.length * ROW + 4;
  return svgPicture({
    id,
    title,
    description: description(dots),
    width: WIDTH,
    height: bottom + AXIS,
    marks: [...shareAxis(at, bottom), ...dots.map((dot, row) => marks(dot, row * ROW))],
  });
}

function at(share: number): string {
  return place(LEFT + share * SCALE);
}

function marks({ label, count, known, share, interval, field }: ShareDot, top: number): Html {
  const line = top + 24;
  return html`<g class="share"
    ><text x="${LEFT}" y="${top + 13}" font-size="11">${shortened(label, 44)}</text
    ><text x="${WIDTH - LEFT}" y="${top + 13}" font-size="11" text-anchor="end">${count} of ${known}</text
    ><line
      class="interval"
      x1="${at(interval.lower)}"
      x2="${at(interval.upper)}"
      y1="${line}"
      y2="${line}"
      stroke="#000000"
      stroke-width="2.5"
    /><circle cx="${at(share)}" cy="${line}" r="4.5" fill="#000000" />${field === null ? null : diamond(field, line)}</g
  >`;
}

/** Told from the dot by its form and by being open; white below, so that it is seen on the line. */
function diamond(share: number, middle: number): Html {
  const [x, arm] = [LEFT + share * SCALE, 5.5];
  return html`<path
    class="field"
    d="M${place(x)} ${middle - arm}L${place(x + arm)} ${middle}L${place(x)} ${middle + arm}L${place(x - arm)} ${middle}Z"
    fill="#ffffff"
    fill-opacity="0.8"
    stroke="#000000"
    stroke-width="1.25"
  />`;
}

function description(dots: readonly ShareDot[]): string {
  const each = dots.map(({ label, count, known, share, interval, field }) => {
    const beside = field === null ? '' : `, field ${percent(field)}`;
    return `${label}: ${count} of ${known}, ${percent(share)}, from ${percent(interval.lower)} to ${percent(interval.upper)}${beside}`;
  });
  return dots.length === 0 ? 'No share rests on enough plays.' : `${each.join('; ')}.`;
}
