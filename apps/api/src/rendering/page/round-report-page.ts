import type { ReportChart, RoundReport } from '#domain/reports/round-report-shape.js';
import { html, type Html } from '../html.js';
import { filmEntries, gameNumbers, type FilmEntry, type ReportFilm } from '../report-film.js';
import { WITHHELD, WITHHELD_GAME, type ReportNames } from '../report-names.js';
import type { PathStep } from '../report-path.js';
import { untoldBlocks, UNTOLD_PART } from '../could-not-tell.js';
import { BY_CHANCE, CAUTION, FILM_TITLE, headBlocks, nextBlocks } from '../report-sections.js';
import { aheadFigure, dotsFigure, pathFigure } from './figures.js';
import { Evidence } from './evidence.js';
import { answerSections } from '../answer-sections.js';
import { coachingSections, POINTS_PART } from '../coaching-sections.js';
import { habitParts } from './habits-section.js';
import { contentsMarkup, partMarkup, type PagePart } from './page-part.js';
import { page, type PageFrame } from './page.js';
import { blocksMarkup } from './section-blocks.js';
import { sidePart, standsOutList } from './side-section.js';

/** A frozen report with all that is looked up when it is read. */
export interface PageReport {
  readonly report: RoundReport;
  readonly names: ReportNames;
  readonly film: ReportFilm;
  /** The opponent's way through the event. */
  readonly path: readonly PathStep[];
}

/** The report as one page of HTML that prints: no script, nothing loaded from anywhere. */
export function roundReportPage({ report, names, film, path }: PageReport, frame: PageFrame): string {
  const evidence = new Evidence(report, film);
  const who = names.player(report.playerId) ?? WITHHELD;
  // In the order of a reader who has twenty minutes. What is cited is numbered as it comes, so the plays come last.
  const parts = [
    ...nextPart(report, names),
    ...coachingSections(report, names).map(({ title, blocks }) => part(POINTS_PART.id, title, blocksMarkup(blocks))),
    part('stands-out', 'What stands out from the field', standsOut(report, evidence), 'What stands out'),
    ...habitParts(report, names, evidence),
    ...answerSections(report, names).map(({ id, title, blocks }) => part(id, title, blocksMarkup(blocks))),
    sidePart(report.offense, evidence),
    sidePart(report.defense, evidence),
    ...(report.film.length === 0
      ? []
      : [part('film', FILM_TITLE, filmList(filmEntries(report, names, film), report), 'Film')]),
    part('path', 'The path so far', pathFigure(who, path), 'Path so far'),
    part(UNTOLD_PART.id, UNTOLD_PART.title, blocksMarkup(untoldBlocks(report, names))),
    part('rests-on', 'What this rests on', html`${chartTable(report, names, film)}${chanceMarkup(report)}`),
    part('caution', 'Before you use this', blocksMarkup(CAUTION)),
    part('plays', 'Plays behind the numbers', playsMarkup(evidence)),
  ];
  const body = html`<header>
      <h1>Scouting report: ${who}</h1>
      ${blocksMarkup(headBlocks(report, names))}
    </header>
    ${contentsMarkup(parts)}
    <main>${parts.map(partMarkup)}</main>`;
  return page(`Scouting report: ${who}`, body, frame);
}

function part(id: string, title: string, markup: Html, inContents = title): PagePart {
  return { id, title, inContents, markup };
}

function chanceMarkup({ sample }: RoundReport): Html {
  return sample.charts.length === 0 ? html`` : blocksMarkup(BY_CHANCE);
}

function playsMarkup(evidence: Evidence): Html {
  return html`<p>
      By the number in brackets beside each figure. Games are numbered as under
      <a href="#rests-on">what this rests on</a>; each play with its number in the chart and its time in the video.
    </p>
    ${evidence.list()}`;
}

function nextPart({ next }: RoundReport, names: ReportNames): PagePart[] {
  if (next === undefined) return [];
  const blocks = blocksMarkup(nextBlocks({ ...next, ahead: [] }, names));
  return [part('next', 'Who is next', html`${blocks} ${aheadFigure(next.ahead, names)}`)];
}

function standsOut(report: RoundReport, evidence: Evidence): Html {
  const sides = [report.offense, report.defense].filter(({ snaps }) => snaps > 0);
  if (sides.length === 0) return html`<p>Nothing of this player is charted.</p>`;
  return html`<div class="beside">${sides.map((side) => html`<div>${standsOutList(side, evidence)}</div>`)}</div>
    <div class="beside">${sides.map((side) => html`<div>${dotsFigure(side, report, evidence)}</div>`)}</div>`;
}

/** The plays to watch, each opening its video there. */
export function filmList(entries: readonly FilmEntry[], { sample }: RoundReport): Html {
  if (entries.length === 0) return html`<p>No play of the evidence has a second of the video.</p>`;
  const numbers = gameNumbers(sample.charts);
  return html`<ol>
    ${entries.map(({ at, address, game, gameId, playNumber, reason }) => {
      const time = address === null ? html`${at}` : html`<a href="${address}" rel="noreferrer">${at}</a>`;
      return html`<li>
        <b>${time}</b> of ${game ?? WITHHELD_GAME} (game ${numbers.get(gameId) ?? 0}), play ${playNumber}: ${reason}
      </li>`;
    })}
  </ol>`;
}

function chartTable({ sample }: RoundReport, names: ReportNames, film: ReportFilm): Html {
  if (sample.charts.length === 0) return html`<p>No chart of this player is in view.</p>`;
  const rows = [...gameNumbers(sample.charts)].map(([gameId, number]) => {
    const charts = sample.charts.filter((chart) => chart.gameId === gameId);
    return html`<tr id="game-${number}">
      <td>${number}</td>
      <th scope="row">${names.game(gameId) ?? WITHHELD_GAME}</th>
      <td>${charts.map((chart) => chartWords(chart, film.chart(chart.chartId)?.revision ?? null)).join('; ')}</td>
    </tr>`;
  });
  return html`<table>
    <thead>
      <tr>
        <th scope="col">Game</th>
        <th scope="col">Who, where, when</th>
        <th scope="col">Kind, rules, revision of the chart</th>
      </tr>
    </thead>
    <tbody>
      ${rows}
    </tbody>
  </table>`;
}

function chartWords({ importance, rulesVersion, revision }: ReportChart, now: number | null): string {
  const since = now === null ? ', no longer in view' : now === revision ? '' : `, changed since: now ${now}`;
  const rules = rulesVersion === null ? 'rules not noted' : `rules ${rulesVersion}`;
  return `${importance ?? 'kind not noted'}, ${rules}, revision ${revision}${since}`;
}
