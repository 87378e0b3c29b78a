import { html, type Html } from '../html.js';
import { shortened } from '../plain-words.js';
import { smallPercent } from '../report-sections.js';
import { place, svgPicture } from './svg-picture.js';

export interface AheadRow {
  readonly round: string;
  /** That it is played, in [0, 1]. */
  readonly plays: number;
  /** The most probable first. */
  readonly opponents: readonly { readonly name: string; readonly probability: number }[];
}

const WIDTH = 360;
const HEAD = 16;
const BAR = 15;
const GAP = 8;

/** Rounds to come from the top down; of each the probability to be played, and a bar for everybody who may be met there. */
export function pathAheadPlot(id: string, title: string, rows: readonly AheadRow[]): Html {
  const tops: number[] = [];
  let height = 0;
  for (const { opponents } of rows) {
    tops.push(height);
    height += HEAD + opponents.length * BAR + GAP;
  }
  return svgPicture({
    id,
    title,
    description: `${rows
      .map(
        ({ round, plays, opponents }) =>
          `${round}, played with ${smallPercent(plays)}: ${opponents
            .map(({ name, probability }) => `${name} ${smallPercent(probability)}`)
            .join(', ')}`,
      )
      .join('; ')}.`,
    width: WIDTH,
    height: Math.max(1, height),
    marks: rows.map((row, at) => rowMarks(row, tops[at] ?? 0)),
  });
}

const NAME = 150;
const SCALE = WIDTH - NAME - 50;

function rowMarks({ round, plays, opponents }: AheadRow, top: number): Html {
  return html`<g class="round"
    ><text x="0" y="${top + 11}" font-size="12" font-weight="bold">${shortened(round, 40)}</text
    ><text x="${WIDTH}" y="${top + 11}" font-size="10" text-anchor="end">played: ${smallPercent(plays)}</text
    >${opponents.map(({ name, probability }, at) => {
      const y = top + HEAD + at * BAR;
      return html`<text x="0" y="${y + 11}" font-size="11">${shortened(name, 22)}</text
        ><rect
          x="${NAME}"
          y="${y + 2}"
          width="${place(SCALE)}"
          height="${BAR - 4}"
          fill="#ffffff"
          stroke="#999999"
          stroke-width="0.75"
        /><rect
          x="${NAME}"
          y="${y + 2}"
          width="${place(SCALE * probability)}"
          height="${BAR - 4}"
          fill="#000000"
        /><text x="${WIDTH}" y="${y + 11}" font-size="11" text-anchor="end">${smallPercent(probability)}</text>`;
    })}</g
  >`;
}
