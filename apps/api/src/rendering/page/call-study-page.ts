import {
  ANSWERED_NOTE,
  HELD_NOTE,
  MOVES_TITLE,
  headWords,
  pointBlocks,
  situationTable,
  studyTitles,
  type PageCallStudy,
  type StudiedLine,
  type StudyPart,
} from '../call-study-sections.js';
import { FEWEST_FOR_PERCENT, counted, percent } from '#domain/tendencies/words/count-words.js';
import { html, type Html } from '../html.js';
import { shareDotsPlot } from '../plots/share-dots-plot.js';
import { shareDriftPlot } from '../plots/share-drift-plot.js';
import { gameNumbers } from '../report-film.js';
import { Evidence } from './evidence.js';
import { captioned, figure } from './figures.js';
import { page, type PageFrame } from './page.js';
import { restsOn } from './rests-on.js';
import { blocksMarkup } from './section-blocks.js';
import { WITHHELD_GAME } from '../report-names.js';

/** More plays than this behind one sentence are a list to get lost in; the study as data has all of them. */
export const MOST_CITED = 30;

/** A call study as one page that prints on its own: no script, nothing loaded from anywhere. */
export function callStudyPage(study: PageCallStudy, frame: PageFrame): string {
  const evidence = new Evidence({ sample: { charts: study.charts } }, study.reportFilm);
  const titles = studyTitles(study);
  const title = `Call study: ${study.call.label}`;
  const contents = Object.entries(titles).filter(([part]) => part !== 'points' || study.coachingPoints.length > 0);
  const section = (part: StudyPart, content: Html): Html =>
    html`<section id="${part}">
      <h2>${titles[part]}</h2>
      ${content}
    </section>`;
  const body = html`<header>
      <h1>${title}</h1>
      <p>${headWords(study)}.</p>
    </header>
    <nav aria-label="Contents">
      <ul>
        ${contents.map(([id, name]) => html`<li><a href="#${id}">${name}</a></li>`)}
      </ul>
    </nav>
    <main>
      ${section(
        'usage',
        html`<p>${study.usage.words}.</p>
          ${usageFigure(study)}`,
      )}
      ${section(
        'giveaways',
        html`<p>${study.giveaways.words}.</p>
          ${lineList('giveaway', study.giveaways.found, evidence)}`,
      )}
      ${section('situations', html`${situationFigure(study)}${blocksMarkup([situationTable(study)])}`)}
      ${section(
        'games',
        html`<p class="note">${HELD_NOTE}</p>
          ${lineList('game', study.games, evidence)}`,
      )}
      ${section(
        'answers',
        html`<p class="note">${ANSWERED_NOTE}</p>
          ${lineList('answer', study.answers, evidence)}${study.moves.length === 0 ? null : html`<h3>${MOVES_TITLE}</h3>`}${lineList('move', study.moves, evidence)}`,
      )}
      ${section('film', filmList(study))}
      ${study.coachingPoints.length === 0 ? null : section('points', blocksMarkup(pointBlocks(study)))}
      <section>${restsOn(gameList(study), evidence)}</section>
    </main>`;
  return page(title, body, frame);
}

/** How often it is used and what it gives, event by event. */
function usageFigure({ call, usage, confidence }: PageCallStudy): Html {
  const used = usage.byEvent.map(({ event, count, known, share }) => ({
    ...{ label: event.name, count, known },
    interval: share?.interval ?? null,
  }));
  const success = usage.byEvent.map(({ event, successes, trials, success: of }) => ({
    ...{ label: event.name, count: successes, known: trials },
    interval: of?.interval ?? null,
  }));
  const table = html`<table>
    <thead>
      <tr>
        <th scope="col">Event</th>
        <th scope="col">Used</th>
        <th scope="col">Players</th>
        <th scope="col">Success</th>
      </tr>
    </thead>
    <tbody>
      ${usage.byEvent.map(
        (one) =>
          html`<tr>
            <th scope="row">${one.event.name}</th>
            <td>${one.count} of ${one.known}</td>
            <td>${one.users} of ${one.players}</td>
            <td>${one.successes} of ${one.trials}</td>
          </tr>`,
      )}
    </tbody>
  </table>`;
  return html`<div class="beside">
    ${figure(
      shareDriftPlot('usage-drift', `${call.label}, event by event`, [
        { label: 'Of the plays on which it is known', points: used },
        { label: 'Success of it', points: success },
      ]),
      `Dot: share. Line: ${percent(confidence)} interval. Open and broken where it is known on fewer than ${FEWEST_FOR_PERCENT} plays.`,
      table,
      'The same as a table',
    )}
  </div>`;
}

function situationFigure({ situations, confidence }: PageCallStudy): Html | null {
  const dots = situations.flatMap(({ situation, results: { successes, trials, success, fieldSuccess } }) =>
    success === null || trials < FEWEST_FOR_PERCENT
      ? []
      : [
          {
            ...{ label: situation ?? 'all snaps', count: successes, known: trials },
            ...{ share: success.share, interval: success.interval, field: fieldSuccess?.share ?? null },
          },
        ],
  );
  if (dots.length === 0) return null;
  return html`<div class="beside">
    ${captioned(
      shareDotsPlot('situation-dots', 'Success by situation', dots),
      `Dot: success of the call. Line: ${percent(confidence)} interval. Open diamond: all calls in that situation. Only situations of ${FEWEST_FOR_PERCENT} plays or more; the table has all.`,
    )}
  </div>`;
}

/** Sentences with the plays behind each. */
function lineList(part: string, lines: readonly StudiedLine[], evidence: Evidence): Html | null {
  if (lines.length === 0) return null;
  const items = lines.map(({ words, plays }, at) => {
    if (plays.length === 0) return html`<li>${words}</li>`;
    const shown = plays.slice(0, MOST_CITED);
    const counts = `${shown.length === plays.length ? '' : `${shown.length} of `}${counted(plays.length, 'play')}`;
    const title = words.split(':')[0] ?? words;
    return html`<li>${words} (${evidence.cite({ id: `${part}/${at}`, title, counts, plays: shown })})</li>`;
  });
  return html`<ol>
    ${items}
  </ol>`;
}

function filmList({ film }: PageCallStudy): Html {
  if (film.length === 0) return html`<p>No play of these games has a second of the video.</p>`;
  const items = film.map(({ game, at, address, playNumber, reason }) => {
    const where = address === null ? html`${at}` : html`<a href="${address}" rel="noreferrer">${at}</a>`;
    return html`<li>${where} of ${game ?? WITHHELD_GAME}, play ${playNumber}: ${reason}</li>`;
  });
  return html`<ol>
    ${items}
  </ol>`;
}

function gameList({ charts, names }: PageCallStudy): Html {
  const items = [...gameNumbers(charts)].map(
    ([gameId, number]) => html`<li id="game-${number}">${names.game(gameId) ?? WITHHELD_GAME}</li>`,
  );
  return html`<ol class="columns">
    ${items}
  </ol>`;
}
