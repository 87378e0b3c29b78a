import type { SheetCell, SheetSide } from '#domain/call-sheet/call-sheet-shape.js';
import { confidenceWords, evidenceWords, headBlocks } from '../call-sheet-sections.js';
import {
  adviceWord,
  figureLines,
  lateGameLines,
  LATE_GAME_NOTE,
  orderWords,
  tryWords,
  wentWords,
  type ReadCallSheet,
} from '../call-sheet-words.js';
import { html, joined, type Html } from '../html.js';
import { placeIn } from '../report-film.js';
import { Evidence } from './evidence.js';
import { page, type PageFrame } from './page.js';
import { restsOn } from './rests-on.js';
import { blocksMarkup } from './section-blocks.js';
import { WITHHELD, WITHHELD_GAME } from '../report-names.js';

/** The call sheet as one document: a sheet of paper for each side, then what stands behind it. No script, nothing loaded. */
export function callSheetPage(read: ReadCallSheet, frame: PageFrame): string {
  const { sheet, names } = read;
  const opponent = names.player(read.opponentId) ?? WITHHELD;
  const evidence = new Evidence({ sample: { charts: read.charts } }, read.film);
  const title = `Call sheet against ${opponent}`;
  const body = html`<main>
    <section class="sheet" id="offense">
      <h1>Our offense against ${opponent}</h1>
      ${sideTable(sheet.offense, evidence)} ${strip(read)}
      <p class="note">
        ${tryWords(sheet.figures)}. GO, KICK, PUNT while score and clock do not matter; two are as good as equal.
      </p>
      <p class="note">${LATE_GAME_NOTE} ${lateGameLines(sheet).join('. ')}.</p>
    </section>
    <section class="sheet" id="defense">
      <h1>Our defense against ${opponent}</h1>
      ${sideTable(sheet.defense, evidence)}
      <h2>Their fourth downs</h2>
      <p class="note">${sheet.theirFourthDowns.map(wentWords).join('; ')}.</p>
    </section>
    <section class="behind">
      <h2>How to read it</h2>
      ${blocksMarkup(headBlocks(read))}
      <p>${confidenceWords(sheet.confidence)}</p>
      <h2>Clips</h2>
      ${clipList(read)}
      <h2>What the cells rest on</h2>
      ${cellList('Our offense', sheet.offense)} ${cellList('Our defense', sheet.defense)}
      <h2>Our figures</h2>
      <ul class="columns">
        ${figureLines(sheet.figures).map((line) => html`<li>${line}</li>`)}
      </ul>
      ${restsOn(gameList(read), evidence)}
    </section>
  </main>`;
  return page(title, body, frame);
}

function sideTable({ side, cells }: SheetSide, evidence: Evidence): Html {
  return html`<table class="calls">
    <thead>
      <tr>
        <th scope="col">Situation</th>
        <th scope="col">They</th>
        <th scope="col">We call</th>
        <th scope="col">Order</th>
        <th scope="col">Clips</th>
      </tr>
    </thead>
    <tbody>
      ${cells.map((cell) => cellRow(cell, side, evidence))}
    </tbody>
  </table>`;
}

function cellRow(cell: SheetCell, side: string, evidence: Evidence): Html {
  const theirs = cell.theirs.map(({ label, count, known, plays }) => {
    const counts = `${count} of ${known}`;
    const cited = evidence.cite({
      id: `${side}/${cell.key}/${label}`,
      title: `${cell.title}, ${label}`,
      counts,
      plays,
    });
    return html`<span class="habit">${label} ${cited}</span>`;
  });
  const changed =
    cell.change === null
      ? null
      : html`<span class="changed"><b>CHANGED</b>, base: ${cell.change.from.join(', ')}</span>`;
  const note = cell.note === null ? null : html`<span class="what">${cell.note}</span>`;
  return html`<tr${cell.change === null ? null : html` class="is-changed"`}>
    <th scope="row"><a href="#cell-${side}-${cell.key}">${cell.title}</a></th>
    <td>${theirs.length === 0 ? html`-` : html`${joined(theirs, ' ')}`}</td>
    <td>${callNames(cell)} ${changed} ${note}</td>
    <td class="order">${orderWords(cell)}</td>
    <td class="clips">${joined(
      cell.clips.map((clip) => html`<a href="#clip-${clip}">${clip}</a>`),
      ', ',
    )}</td>
  </tr>`;
}

function callNames({ calls }: SheetCell): Html {
  if (calls.length === 0) return html`-`;
  const names = calls.map(({ name }, place) =>
    calls.length === 1
      ? html`<b class="call">${name}</b>`
      : html`<span class="numbered">${place + 1} <b class="call">${name}</b></span>`,
  );
  return html`${joined(names, ' ')}`;
}

function strip({ sheet }: ReadCallSheet): Html {
  const { distances, spots, advice } = sheet.fourthDowns;
  return html`<table class="strip">
    <caption>
      Fourth down, yards to go by where the ball is
    </caption>
    <thead>
      <tr>
        <th scope="col">To go</th>
        ${spots.map(({ name }) => html`<th scope="col">${name}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${distances.map(
        ({ name }, row) =>
          html`<tr>
            <th scope="row">${name}</th>
            ${spots.map((_, column) => html`<td>${adviceWord(advice[row]?.[column] ?? null)}</td>`)}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

function clipList({ sheet, names }: ReadCallSheet): Html {
  if (sheet.clips.length === 0) return html`<p>No play has a second of the video.</p>`;
  const items = sheet.clips.map(({ number, play, gameId, second, reason }) => {
    const { at, address } = placeIn(names.video(play.chartId), second);
    const where = address === null ? html`${at}` : html`<a href="${address}" rel="noreferrer">${at}</a>`;
    return html`<li id="clip-${number}">${where} of ${names.game(gameId) ?? WITHHELD_GAME}: ${reason}</li>`;
  });
  return html`<ol class="columns">
    ${items}
  </ol>`;
}

function cellList(title: string, { side, cells }: SheetSide): Html {
  return html`<h3>${title}</h3>
    <ul class="columns">
      ${cells.map((cell) => html`<li id="cell-${side}-${cell.key}">${evidenceWords(cell)}</li>`)}
    </ul>`;
}

function gameList({ charts, names }: ReadCallSheet): Html {
  const games = [...new Map(charts.map((chart) => [chart.gameId, chart])).values()];
  return html`<ol>
    ${games.map(
      ({ gameId, revision }, at) =>
        html`<li id="game-${at + 1}">${names.game(gameId) ?? WITHHELD_GAME}, revision ${revision} of its chart</li>`,
    )}
  </ol>`;
}
