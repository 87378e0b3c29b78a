import { percent } from '#domain/tendencies/words/count-words.js';
import { html, type Html } from '../html.js';

const TICKS = [0, 0.25, 0.5, 0.75, 1];

/** The scale from nothing to all below rows of shares, with a line up through them at every quarter. */
export function shareAxis(at: (share: number) => string, bottom: number): Html[] {
  return TICKS.map((share) => {
    // The outermost labels stay inside the drawing.
    const anchor = share === 0 ? 'start' : share === 1 ? 'end' : 'middle';
    return html`<line
        x1="${at(share)}"
        x2="${at(share)}"
        y1="0"
        y2="${bottom}"
        stroke="#cccccc"
        stroke-width="0.75"
      /><text x="${at(share)}" y="${bottom + 14}" font-size="10" text-anchor="${anchor}">${percent(share)}</text>`;
  });
}
