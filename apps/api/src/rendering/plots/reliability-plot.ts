import type { ReliabilityBin } from '#domain/forecast/scoring/calibration.js';
import { percent } from '#domain/tendencies/words/count-words.js';
import { html, type Html } from '../html.js';
import { place, svgPicture } from './svg-picture.js';

const SIZE = 360;
const LEFT = 44;
const TOP = 12;
const SCALE = SIZE - LEFT - 16;
const TICKS = [0, 0.25, 0.5, 0.75, 1];
const LEAST_RADIUS = 2.5;
const MOST_RADIUS = 11;

/**
 * How often what was forecast came true: a dot a bin of forecasts, as large as the bin has forecasts, against the line on
 * which a forecast without fault would lie.
 */
export function reliabilityPlot(id: string, title: string, bins: readonly ReliabilityBin[]): Html {
  const most = bins.reduce((top, { forecasts }) => Math.max(top, forecasts), 1);
  return svgPicture({
    id,
    title,
    description: description(bins),
    width: SIZE,
    height: TOP + SCALE + 40,
    marks: [
      ...TICKS.map((share) => tick(share)),
      html`<line x1="${x(0)}" y1="${y(0)}" x2="${x(1)}" y2="${y(1)}" stroke="#000000" stroke-dasharray="4 3" />`,
      ...bins.map((bin) => dot(bin, most)),
      html`<text x="${x(0.5)}" y="${TOP + SCALE + 34}" font-size="11" text-anchor="middle">forecast</text>`,
      html`<text x="12" y="${y(0.5)}" font-size="11" text-anchor="middle" transform="rotate(-90 12 ${y(0.5)})"
        >came true</text
      >`,
    ],
  });
}

function x(share: number): string {
  return place(LEFT + share * SCALE);
}

function y(share: number): string {
  return place(TOP + (1 - share) * SCALE);
}

function tick(share: number): Html {
  return html`<line x1="${x(share)}" x2="${x(share)}" y1="${y(0)}" y2="${y(1)}" stroke="#cccccc" stroke-width="0.75" />
    <line x1="${x(0)}" x2="${x(1)}" y1="${y(share)}" y2="${y(share)}" stroke="#cccccc" stroke-width="0.75" />
    <text x="${x(share)}" y="${TOP + SCALE + 15}" font-size="10" text-anchor="middle">${percent(share)}</text>
    <text x="${LEFT - 5}" y="${y(share)}" dy="3" font-size="10" text-anchor="end">${percent(share)}</text>`;
}

function dot({ meanForecast, happened, forecasts }: ReliabilityBin, most: number): Html {
  const radius = LEAST_RADIUS + (MOST_RADIUS - LEAST_RADIUS) * Math.sqrt(forecasts / most);
  return html`<circle
    cx="${x(meanForecast)}"
    cy="${y(happened)}"
    r="${place(radius)}"
    fill="#000000"
    fill-opacity="0.6"
    stroke="#000000"
  />`;
}

function description(bins: readonly ReliabilityBin[]): string {
  const each = bins.map(
    ({ meanForecast, happened, forecasts }) =>
      `forecast ${percent(meanForecast)}, came true ${percent(happened)} of ${forecasts}`,
  );
  return each.length === 0 ? 'There are no forecasts.' : `${each.join('; ')}.`;
}
