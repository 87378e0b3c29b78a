import type { ReportInterval } from '#domain/reports/round-report-shape.js';
import { html, type Html } from '../html.js';
import { shortened } from '../plain-words.js';
import { place, svgPicture } from './svg-picture.js';

/** A difference with what is known of it; below 0 it speaks for what is judged. */
export interface DifferenceDot {
  readonly label: string;
  readonly note: string;
  readonly mean: number;
  readonly interval: ReportInterval | null;
}

const WIDTH = 360;
const LEFT = 12;
const SCALE = WIDTH - 2 * LEFT;
const ROW = 34;
const AXIS = 30;
/** Never narrower, so that a difference of nothing does not fill the picture. */
const LEAST_REACH = 0.05;

/** Differences as dots with their intervals around a line at nothing. */
export function differencePlot(id: string, title: string, dots: readonly DifferenceDot[]): Html {
  const reach = dots.reduce(
    (most, { mean, interval }) =>
      Math.max(most, Math.abs(mean), Math.abs(interval?.lower ?? 0), Math.abs(interval?.upper ?? 0)),
    LEAST_REACH,
  );
  const at = (value: number): string => place(LEFT + ((value / reach + 1) / 2) * SCALE);
  const bottom = dots.length * ROW + 4;
  return svgPicture({
    id,
    title,
    description: `${dots.map(({ label, mean, note }) => `${label}: ${mean.toFixed(3)}, ${note}`).join('; ')}.`,
    width: WIDTH,
    height: bottom + AXIS,
    marks: [
      html`<text x="${at(0)}" y="${bottom + 12}" font-size="10" text-anchor="middle">0</text>`,
      html`<text x="${LEFT}" y="${bottom + 25}" font-size="10">${(-reach).toFixed(2)}: told more</text>`,
      html`<text x="${WIDTH - LEFT}" y="${bottom + 25}" font-size="10" text-anchor="end">
        told less: ${reach.toFixed(2)}
      </text>`,
      ...dots.map((dot, row) => marks(dot, row * ROW, at)),
    ],
  });
}

function marks({ label, note, mean, interval }: DifferenceDot, top: number, at: (value: number) => string): Html {
  const line = top + 24;
  const range =
    interval === null
      ? null
      : html`<line
          x1="${at(interval.lower)}"
          x2="${at(interval.upper)}"
          y1="${line}"
          y2="${line}"
          stroke="#000000"
          stroke-width="1.5"
        />`;
  return html`<g
    ><text x="${LEFT}" y="${top + 13}" font-size="11">${shortened(label, 44)}</text
    ><text x="${WIDTH - LEFT}" y="${top + 13}" font-size="11" text-anchor="end">${note}</text
    ><line
      x1="${at(0)}"
      x2="${at(0)}"
      y1="${top + 18}"
      y2="${top + 30}"
      stroke="#000000"
      stroke-dasharray="4 3" />${range}<circle cx="${at(mean)}" cy="${line}" r="4" fill="#000000"
  /></g>`;
}
