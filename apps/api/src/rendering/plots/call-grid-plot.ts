import type { CallGrid, CallGridRow } from '#domain/reports/round-report-shape.js';
import { html, type Html } from '../html.js';
import { shortened } from '../plain-words.js';
import { wrapped } from '../wrapped.js';
import { SHADES, shadeOf, type Shade } from './shade.js';
import { place, svgPicture } from './svg-picture.js';

const WIDTH = 720;
const LABELS = 150;
const HEAD = 40;
const ROW = 23;
const LEGEND = 40;
/** Between two cells, so that their borders can be told apart. */
const GAP = 3;
/** About the width of a letter of the labels, and of the legend: for breaking lines and for steps, no more. */
const LETTER = 6.3;
const LEGEND_LETTER = 5.6;

/** Situations down, calls across, in each cell how often: "5 of 7", darker and thicker the larger the share. */
export function callGridPlot(id: string, title: string, grid: CallGrid): Html {
  const column = (WIDTH - LABELS) / grid.columns.length;
  const height = HEAD + grid.rows.length * ROW + LEGEND;
  return svgPicture({
    id,
    title,
    description: description(grid),
    width: WIDTH,
    height,
    marks: [
      ...grid.columns.map(({ label }, at) => columnLabel(label, LABELS + at * column, column)),
      ...grid.rows.map((row, at) => rowMarks(row, HEAD + at * ROW, column)),
      legend(height - LEGEND + 14),
    ],
  });
}

function columnLabel(label: string, left: number, width: number): Html {
  const lines = wrapped(shortened(label, 30), Math.floor(width / LETTER)).slice(0, 3);
  const first = HEAD - 6 - 12 * (lines.length - 1);
  return html`<text class="column" font-size="11" text-anchor="middle"
    >${lines.map(
      (line, at) => html`<tspan x="${place(left + width / 2)}" y="${first + 12 * at}">${line}</tspan>`,
    )}</text
  >`;
}

function rowMarks({ label, known, cells }: CallGridRow, top: number, width: number): Html {
  const most = Math.max(...cells.map(({ count }) => count));
  return html`<text class="row" x="${LABELS - 8}" y="${top + 15}" font-size="11" text-anchor="end"
      >${shortened(label, 24)}</text
    >${cells.map(({ count }, at) => {
      const shade = shadeOf(count, known);
      const left = LABELS + at * width;
      const words = count === 0 ? '0' : `${count} of ${known}`;
      const weight = count > 0 && count === most ? 'bold' : 'normal';
      return html`<g class="cell"
        >${box(left, top, width, shade)}<text
          x="${place(left + width / 2)}"
          y="${top + 15}"
          font-size="11"
          text-anchor="middle"
          font-weight="${weight}"
          fill="${shade.ink}"
          >${words}</text
        ></g
      >`;
    })}`;
}

/** The border stays inside its cell. */
function box(left: number, top: number, width: number, { fill, border, dashed }: Shade): Html {
  const inset = (GAP + border) / 2;
  return html`<rect
    x="${place(left + inset)}"
    y="${place(top + inset)}"
    width="${place(width - 2 * inset)}"
    height="${place(ROW - 2 * inset)}"
    fill="${fill}"
    stroke="#000000"
    stroke-width="${border}"
    ${dashed ? html` stroke-dasharray="2 2"` : null}
  />`;
}

function legend(top: number): Html {
  const swatch = 26;
  let left = 0;
  const entries = SHADES.map((shade) => {
    const entry = html`${box(left, top, swatch, shade)}<text x="${place(left + swatch + 4)}" y="${top + 15}"
        >${shade.label}</text
      >`;
    left += swatch + 14 + shade.label.length * LEGEND_LETTER;
    return entry;
  });
  return html`<g class="legend" font-size="10">${entries}</g>`;
}

function description({ dimensionLabel, rows, columns }: CallGrid): string {
  const often = rows.map(({ label, known, cells }) => {
    const most = Math.max(...cells.map(({ count }) => count));
    const what = columns.filter((_, at) => cells[at]?.count === most).map((column) => column.label);
    return `${label}: ${what.join(' and ')} ${most} of ${known}`;
  });
  return `Rows are situations, columns are values of ${dimensionLabel}. Most often, ${often.join('; ')}.`;
}
