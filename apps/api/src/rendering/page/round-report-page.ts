import type { ReportChart, RoundReport } from '#domain/reports/round-report-shape.js';
import { html, type Html } from '../html.js';
import { filmEntries, gameNumbers, type FilmEntry, type ReportFilm } from '../report-film.js';
import type { ReportNames } from '../report-names.js';
import type { PathStep } from '../report-path.js';
import { HABIT_PARTS } from '../habit-sections.js';
import { CAUTION, headBlocks, nextBlocks, unknownBlocks, WITHHELD } from '../report-sections.js';
import { aheadFigure, dotsFigure, pathFigure } from './figures.js';
import { Evidence } from './evidence.js';
import { ANSWER_PARTS, answerSections } from '../answer-sections.js';
import { coachingSections, POINTS_PART } from '../coaching-sections.js';
import { habitSections } from './habits-section.js';
import { page, type PageFrame } from './page.js';
import { blocksMarkup } from './section-blocks.js';
import { sideSection, standsOutList } from './side-section.js';

/** A frozen report with all that is looked up when it is read. */
export interface PageReport {
  readonly report: RoundReport;
  readonly names: ReportNames;
  readonly film: ReportFilm;
  /** The opponent's way through the event. */
  readonly path: readonly PathStep[];
}

type Contents = readonly (readonly [id: string, title: string])[];

/** The sections that a reader jumps to, in the order of a reader who has twenty minutes. */
const NEXT: Contents = [['next', 'Who is next']];
const POINTS: Contents = [[POINTS_PART.id, POINTS_PART.title]];
const FIRST: Contents = [['stands-out', 'What stands out']];
const HABITS: Contents = HABIT_PARTS.map(({ id, title }) => [id, title]);
const ANSWERS: Contents = ANSWER_PARTS.map(({ id, title }) => [id, title]);
const FURTHER: Contents = [
  ['offense', 'Offense'],
  ['defense', 'Defense'],
  ['film', 'Film'],
  ['path', 'Path so far'],
  ['not-known', 'Not known'],
  ['rests-on', 'What this rests on'],
  ['caution', 'Before you use this'],
  ['plays', 'Plays behind the numbers'],
];

/** The report as one page of HTML that prints: no script, nothing loaded from anywhere. */
export function roundReportPage({ report, names, film, path }: PageReport, frame: PageFrame): string {
  const evidence = new Evidence(report, film);
  const points = coachingSections(report, names);
  const contents = [
    ...(report.next === undefined ? [] : NEXT),
    ...(points.length === 0 ? [] : POINTS),
    ...FIRST,
    ...(report.habits === undefined ? [] : HABITS),
    ...(report.answers === undefined ? [] : ANSWERS),
    ...FURTHER,
  ];
  const who = names.player(report.playerId) ?? WITHHELD;
  const body = html`<header>
      <h1>Scouting report: ${who}</h1>
      ${blocksMarkup(headBlocks(report, names))}
    </header>
    <nav aria-label="Contents">
      <ul>
        ${contents.map(([id, title]) => html`<li><a href="#${id}">${title}</a></li>`)}
      </ul>
    </nav>
    <main>
      ${nextSection(report, names)}
      ${points.map(
        ({ title, blocks }) =>
          html`<section id="${POINTS_PART.id}">
            <h2>${title}</h2>
            ${blocksMarkup(blocks)}
          </section>`,
      )}
      <section id="stands-out">
        <h2>What stands out from the field</h2>
        ${standsOut(report, evidence)}
      </section>
      ${habitSections(report, names, evidence)} ${answerMarkup(report, names)} ${sideSection(report.offense, evidence)}
      ${sideSection(report.defense, evidence)}
      <section id="film">
        <h2>Film to watch, in this order</h2>
        ${filmList(filmEntries(report, names, film), report)}
      </section>
      <section id="path">
        <h2>The path so far</h2>
        ${pathFigure(who, path)}
      </section>
      <section id="not-known">
        <h2>Not known</h2>
        ${blocksMarkup(unknownBlocks(report))}
      </section>
      <section id="rests-on">
        <h2>What this rests on</h2>
        ${chartTable(report, names, film)}
      </section>
      <section id="caution">
        <h2>Before you use this</h2>
        ${blocksMarkup(CAUTION)}
      </section>
      <section id="plays">
        <h2>Plays behind the numbers</h2>
        <p>
          By the number in brackets beside each figure. Games are numbered as under
          <a href="#rests-on">what this rests on</a>; each play with its number in the chart and its time in the video.
        </p>
        ${evidence.list()}
      </section>
    </main>`;
  return page(`Scouting report: ${who}`, body, frame);
}

function nextSection({ next }: RoundReport, names: ReportNames): Html | null {
  if (next === undefined) return null;
  return html`<section id="next">
    <h2>Who is next</h2>
    ${blocksMarkup(nextBlocks({ ...next, ahead: [] }, names))} ${aheadFigure(next.ahead, names)}
  </section>`;
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
        <b>${time}</b> of ${game ?? 'a game you may not see'} (game ${numbers.get(gameId) ?? 0}), play ${playNumber}:
        ${reason}
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
      <th scope="row">${names.game(gameId) ?? 'a game you may not see'}</th>
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

/** What text and Markdown say of answers and mixes, each part under its own address. */
function answerMarkup(report: RoundReport, names: ReportNames): Html[] {
  return answerSections(report, names).map(
    ({ title, blocks }, part) =>
      html`<section id="${ANSWER_PARTS[part]?.id ?? ''}">
        <h2>${title}</h2>
        ${blocksMarkup(blocks)}
      </section>`,
  );
}
