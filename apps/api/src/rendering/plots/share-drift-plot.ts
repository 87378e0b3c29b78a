import type { ReportInterval } from '#domain/reports/round-report-shape.js';
import { FEWEST_FOR_PERCENT } from '#domain/tendencies/words/count-words.js';
import { html, type Html } from '../html.js';
import { shortened } from '../plain-words.js';
import { shareAxis } from './share-axis.js';
import { place, svgPicture } from './svg-picture.js';

/** A share in one event. */
export interface DriftPoint {
  /** The event. */
  readonly label: string;
  readonly count: number;
  /** 0 where nothing is known, which is drawn as nothing and not as a share of 0. */
  readonly known: number;
  readonly interval: ReportInterval | null;
}

export interface DriftLine {
  /** What the share is of. */
  readonly label: string;
  /** In the order of the events. */
  readonly points: readonly DriftPoint[];
}

/** As narrow as a phone; events go down, so that their names have the width that names need. */
const WIDTH = 360;
const LEFT = 12;
const SCALE = WIDTH - 2 * LEFT;
const HEAD = 22;
const ROW = 32;
const AFTER = 8;
const AXIS = 22;
const RADIUS = 4.5;

/** Shares from event to event: dots from the top down, joined, on a scale from nothing to all. */
export function shareDriftPlot(id: string, title: string, lines: readonly DriftLine[]): Html {
  const tops = lines.map((_, at) => lines.slice(0, at).reduce((sum, line) => sum + heightOf(line), 0));
  const bottom = lines.reduce((sum, line) => sum + heightOf(line), 0);
  return svgPicture({
    id,
    title,
    description: description(lines),
    width: WIDTH,
    height: bottom + AXIS,
    marks: [...shareAxis(x, bottom), ...lines.map((line, at) => lineMarks(line, tops[at] ?? 0))],
  });
}

function heightOf({ points }: DriftLine): number {
  return HEAD + points.length * ROW + AFTER;
}

function x(share: number): string {
  return place(LEFT + share * SCALE);
}

function lineMarks({ label, points }: DriftLine, top: number): Html {
  const rows = points.map((point, at) => ({ ...point, middle: top + HEAD + at * ROW + 22 }));
  const known = rows.filter((row) => row.known > 0);
  const path = known.map(({ count, known: of, middle }) => `${x(count / of)} ${middle}`).join('L');
  return html`<g class="drift"
    ><text x="${LEFT}" y="${top + 15}" font-size="12" font-weight="bold">${shortened(label, 44)}</text
    >${known.length < 2 ? null : html`<path class="way" d="M${path}" fill="none" stroke="#000000" stroke-width="0.75" />`}${rows.map(
      (row) => pointMarks(row),
    )}</g
  >`;
}

function pointMarks({ label, count, known, interval, middle }: DriftPoint & { readonly middle: number }): Html {
  const few = known < FEWEST_FOR_PERCENT;
  const counts = known === 0 ? 'not known' : `${count} of ${known}`;
  const dash = few ? html` stroke-dasharray="3 2"` : null;
  const line =
    interval === null
      ? null
      : html`<line
          class="interval"
          x1="${x(interval.lower)}"
          x2="${x(interval.upper)}"
          y1="${middle}"
          y2="${middle}"
          stroke="#000000"
          stroke-width="2"
          ${dash}
        />`;
  const dot =
    known === 0
      ? null
      : html`<circle
          cx="${x(count / known)}"
          cy="${middle}"
          r="${RADIUS}"
          fill="${few ? '#ffffff' : '#000000'}"
          stroke="#000000"
          stroke-width="1.25"
        />`;
  return html`<g class="event"
    ><text x="${LEFT}" y="${middle - 9}" font-size="10" stroke="#ffffff" stroke-width="3" paint-order="stroke"
      >${shortened(label, 42)}</text
    ><text x="${WIDTH - LEFT}" y="${middle - 9}" font-size="10" text-anchor="end">${counts}</text>${line}${dot}</g
  >`;
}

function description(lines: readonly DriftLine[]): string {
  if (lines.length === 0) return 'No share is known in more than one event.';
  const each = lines.map(({ label, points }) => {
    const shares = points.map((point) =>
      point.known === 0 ? `${point.label} not known` : `${point.label} ${point.count} of ${point.known}`,
    );
    return `${label}: ${shares.join(', ')}`;
  });
  return `${each.join('; ')}.`;
}
