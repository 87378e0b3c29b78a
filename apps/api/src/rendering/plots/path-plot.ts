import { html, type Html } from '../html.js';
import { shortened } from '../plain-words.js';
import { stepWords, type PathStep } from '../report-path.js';
import { svgPicture } from './svg-picture.js';

const WIDTH = 360;
const ROW = 34;
const TRACK = 14;

/** A player's way through an event, from the top down; what a step was is told by the form of its mark. */
export function pathPlot(id: string, title: string, steps: readonly PathStep[]): Html {
  const last = (steps.length - 1) * ROW + ROW / 2;
  return svgPicture({
    id,
    title,
    description:
      steps.length === 0
        ? 'No match of this player in this event is known.'
        : `${steps.map((step) => `${step.stage}: ${stepWords(step)}`).join('; ')}.`,
    width: WIDTH,
    height: Math.max(1, steps.length) * ROW,
    marks: [
      html`<line
        x1="${TRACK}"
        x2="${TRACK}"
        y1="${ROW / 2}"
        y2="${Math.max(ROW / 2, last)}"
        stroke="#000000"
        stroke-width="1"
      />`,
      ...steps.map((step, at) => stepMarks(step, at * ROW + ROW / 2)),
    ],
  });
}

function stepMarks(step: PathStep, middle: number): Html {
  const when = step.playedOn === null ? '' : `, ${step.playedOn}`;
  return html`<g class="step"
    >${mark(step.outcome, middle)}<text x="${TRACK * 2 + 4}" y="${middle - 3}" font-size="10"
      >${shortened(`${step.stage}${when}`, 58)}</text
    ><text x="${TRACK * 2 + 4}" y="${middle + 10}" font-size="12" font-weight="bold"
      >${shortened(stepWords(step), 46)}</text
    ></g
  >`;
}

/** Full: won. Open: lost. Half: drawn or not noted. Broken line: to come. */
function mark(outcome: PathStep['outcome'], middle: number): Html {
  const circle = (fill: string, dashed: boolean): Html =>
    html`<circle
      cx="${TRACK}"
      cy="${middle}"
      r="7"
      fill="${fill}"
      stroke="#000000"
      stroke-width="1.5"
      ${dashed ? html` stroke-dasharray="3 2"` : null}
    />`;
  switch (outcome) {
    case 'won':
      return circle('#000000', false);
    case 'lost':
      return circle('#ffffff', false);
    case 'drawn':
    case 'not noted':
      return html`${circle('#ffffff', false)}<path d="M${TRACK} ${middle - 7}a7 7 0 0 0 0 14Z" fill="#000000" />`;
    case 'to be played':
      return circle('#ffffff', true);
  }
}
