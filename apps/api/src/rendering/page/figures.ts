import { valueWords } from '#domain/reports/claim-words.js';
import type { RoundAhead } from '#domain/reports/next-opponents-shape.js';
import { FEWEST_FOR_PERCENT, percent } from '#domain/tendencies/words/count-words.js';
import type { CallGrid, RoundReport, ShareClaim, SideReport } from '#domain/reports/round-report-shape.js';
import { html, type Html } from '../html.js';
import { callGridPlot } from '../plots/call-grid-plot.js';
import { pathAheadPlot } from '../plots/path-ahead-plot.js';
import { pathPlot } from '../plots/path-plot.js';
import { shareDotsPlot } from '../plots/share-dots-plot.js';
import { WITHHELD, type ReportNames } from '../report-names.js';
import { smallPercent } from '../report-sections.js';
import { stepWords, type PathStep } from '../report-path.js';
import { cellFigure, shareFigure } from './claims.js';
import type { Evidence } from './evidence.js';

/** More rows than this are no longer seen at a glance. */
const MOST_DOTS = 10;

/** A drawing with its caption and, for whoever cannot or will not see it, the same as a table. */
export function figure(
  picture: Html,
  caption: string,
  table: Html,
  summary = 'The same as a table, with the plays',
): Html {
  return captioned(
    picture,
    caption,
    html`<details>
      <summary>${summary}</summary>
      ${table}
    </details>`,
  );
}

/** A drawing with its caption, of figures that stand in words beside it. */
export function captioned(picture: Html, caption: string, below: Html | null = null): Html {
  return html`<figure>
    ${picture}
    <figcaption>${caption}</figcaption>
    ${below}
  </figure>`;
}

/** A part that is wider than a phone scrolls in itself, by keyboard too, so that the page never does. */
export function scrolling(label: string, content: Html): Html {
  return html`<div class="scrolling" role="region" aria-label="${label}" tabindex="0">${content}</div>`;
}

/** Situations against calls. */
export function gridFigure({ side }: SideReport, grid: CallGrid, evidence: Evidence): Html {
  const title = `${side === 'offense' ? 'Offense' : 'Defense'}: ${grid.dimensionLabel} by situation`;
  const table = html`<table class="grid">
    <caption>
      ${title}, of the plays on which it is known
    </caption>
    <thead>
      <tr>
        <th scope="col">Situation</th>
        ${grid.columns.map(({ label }) => html`<th scope="col">${label}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${grid.rows.map(
        ({ label }, row) =>
          html`<tr>
            <th scope="row">${label}</th>
            ${grid.columns.map((_, column) => html`<td>${cellFigure(side, grid, row, column, evidence)}</td>`)}
          </tr>`,
      )}
    </tbody>
  </table>`;
  return figure(
    scrolling(`${title}, drawing`, callGridPlot(`grid-${side}`, title, grid)),
    `${title}. In each cell how often, of the plays on which it is known; the darker and the thicker its border, the larger the share. Bold is the most frequent of a row. Rows of fewer than ${FEWEST_FOR_PERCENT} plays are broken lines without shade.`,
    scrolling(`${title}, table`, table),
  );
}

/** Shares against the field: what stands out, then what is done most. */
export function dotsFigure(side: SideReport, { settings }: RoundReport, evidence: Evidence): Html | null {
  const claims = new Map<string, ShareClaim>();
  for (const claim of [...side.standsOut.map(({ claim }) => claim), ...side.mostUsed]) claims.set(claim.id, claim);
  const shown = [...claims.values()].filter(({ known }) => known >= FEWEST_FOR_PERCENT).slice(0, MOST_DOTS);
  if (shown.length === 0) return null;
  const title = `${side.side === 'offense' ? 'Offense' : 'Defense'} against the field`;
  const label = (claim: ShareClaim): string =>
    `${valueWords(claim)}${claim.situation === 'all snaps' ? '' : `, ${claim.situation}`}`;
  const table = html`<table>
    <caption>
      ${title}
    </caption>
    <thead>
      <tr>
        <th scope="col">What</th>
        <th scope="col">How often</th>
      </tr>
    </thead>
    <tbody>
      ${shown.map(
        (claim) =>
          html`<tr>
            <th scope="row">${label(claim)}</th>
            <td>${shareFigure(claim, evidence)}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
  return figure(
    shareDotsPlot(
      `dots-${side.side}`,
      title,
      shown.map((claim) => ({ ...claim, label: label(claim), field: claim.fieldShare })),
    ),
    `${title}. Dot: share of the plays on which it is known. Line: ${percent(settings.confidence)} interval. Open diamond: everybody else in view. Only what is known on ${FEWEST_FOR_PERCENT} plays or more.`,
    table,
  );
}

/** The way through the event. */
export function pathFigure(who: string, steps: readonly PathStep[]): Html {
  const title = `${who} in this event so far`;
  const table = html`<table>
    <caption>
      ${title}
    </caption>
    <thead>
      <tr>
        <th scope="col">Stage</th>
        <th scope="col">Date</th>
        <th scope="col">Result</th>
      </tr>
    </thead>
    <tbody>
      ${steps.map(
        (step) =>
          html`<tr>
            <th scope="row">${step.stage}</th>
            <td>${step.playedOn ?? 'not noted'}</td>
            <td>${stepWords(step)}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
  return figure(
    pathPlot('path-drawing', title, steps),
    `${title}, as the bracket stands when this page is read. Full: won. Open: lost. Half: drawn, or not noted. Broken line: to be played.`,
    table,
    'The same as a table',
  );
}

/** Whom the player may still meet, round by round. */
export function aheadFigure(ahead: readonly RoundAhead[], names: ReportNames): Html | null {
  if (ahead.length === 0) return null;
  const who = (playerId: string): string => names.player(playerId) ?? WITHHELD;
  const rows = ahead.map(({ round, plays, opponents }) => ({
    round,
    plays,
    opponents: opponents.map(({ playerId, probability }) => ({ name: who(playerId), probability })),
  }));
  const table = html`<table>
    <thead>
      <tr>
        <th scope="col">Round</th>
        <th scope="col">Played</th>
        <th scope="col">Against</th>
      </tr>
    </thead>
    <tbody>
      ${rows.map(
        ({ round, plays, opponents }) =>
          html`<tr>
            <th scope="row">${round}</th>
            <td>${smallPercent(plays)}</td>
            <td>${opponents.map(({ name, probability }) => `${name} ${smallPercent(probability)}`).join(', ')}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
  const caption = 'The way ahead: how probably each round is played, and against whom.';
  return figure(pathAheadPlot('ahead', 'The way ahead', rows), caption, table, 'The same as a table');
}
