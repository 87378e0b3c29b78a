import type { HabitClaim, HabitTopic, ShareOverEvents } from '#domain/reports/habits/habits-shape.js';
import { FEWEST_FOR_PERCENT, percent } from '#domain/tendencies/words/count-words.js';
import type { RoundReport } from '#domain/reports/round-report-shape.js';
import { claimWords, NO_HABITS, toldHabits } from '../habit-sections.js';
import { html, type Html } from '../html.js';
import { upperFirst } from '../plain-words.js';
import { shareDriftPlot } from '../plots/share-drift-plot.js';
import type { ReportNames } from '../report-names.js';
import type { Evidence } from './evidence.js';
import { figure, scrolling } from './figures.js';
import type { PagePart } from './page-part.js';

const SIDES = ['offense', 'defense'] as const;

/** The parts on habits that have something to say. */
export function habitParts(report: RoundReport, names: ReportNames, evidence: Evidence): PagePart[] {
  return toldHabits(report.habits).map(({ id, title, part, topics }) => ({
    ...{ id, title, inContents: title },
    markup: html`${topics.length === 0 ? html`<p>${NO_HABITS}</p>` : sides(topics, evidence)}
    ${part === 'changed' ? driftFigures(report, names) : null}`,
  }));
}

function sides(topics: readonly HabitTopic[], evidence: Evidence): Html {
  const of = SIDES.map((side) => topics.filter((topic) => topic.side === side)).filter((ofSide) => ofSide.length > 0);
  return html`<div class="beside">
    ${of.map(
      (ofSide) =>
        html`<div>
          <h3>${sideName(ofSide[0]?.side ?? 'offense')}</h3>
          ${ofSide.map((topic) => topicMarkup(topic, evidence))}
        </div>`,
    )}
  </div>`;
}

function sideName(side: HabitTopic['side']): string {
  return side === 'offense' ? 'Offense' : 'Defense';
}

function topicMarkup({ title, note, claims }: HabitTopic, evidence: Evidence): Html {
  const list =
    claims.length === 0
      ? null
      : html`<ul>
          ${claims.map((claim) => html`<li>${claimMarkup(claim, evidence)}</li>`)}
        </ul>`;
  return html`<h4>${title}</h4>
    <p class="note">${upperFirst(note)}.</p>
    ${list}`;
}

/** The sentence, its counts leading to the plays and set apart where it stands. */
function claimMarkup(claim: HabitClaim, evidence: Evidence): Html {
  const { id, label, side, count, known, plays } = claim;
  const counts = `${count} of ${known}`;
  const cited = count === 0 ? html`<b>${counts}</b>` : evidence.cite({ id, title: `${label}, ${side}`, counts, plays });
  const words = claimWords(claim).replaceAll(' %', '\u00a0%');
  const at = placeOf(counts, words);
  return at < 0 ? html`${words} (${cited})` : html`${words.slice(0, at)}${cited}${words.slice(at + counts.length)}`;
}

/** Where the counts stand by themselves: "2 of 40" is not in "12 of 40". */
function placeOf(counts: string, words: string): number {
  return words.search(new RegExp(`(?<!\\d)${counts}(?!\\d)`));
}

function driftFigures({ settings, habits }: RoundReport, names: ReportNames): Html | null {
  if (habits === undefined || habits.overEvents.length === 0) return null;
  const { events, overEvents } = habits;
  const labels = events.map(({ eventId, games }) => {
    const name = eventId === null ? 'outside events' : (names.event(eventId) ?? 'an event you may not see');
    return `${name}, ${games === 1 ? '1 game' : `${games} games`}`;
  });
  return html`<h3>From event to event</h3>
    <div class="beside">
      ${SIDES.map((side) => overEvents.filter((share) => share.side === side))
        .filter((ofSide) => ofSide.length > 0)
        .map((ofSide) => html`<div>${driftFigure(ofSide, labels, settings.confidence)}</div>`)}
    </div>`;
}

function driftFigure(shares: readonly ShareOverEvents[], events: readonly string[], confidence: number): Html {
  const [first] = shares;
  const title = `${sideName(first?.side ?? 'offense')}: ${first?.dimensionLabel ?? ''} from event to event`;
  const picture = shareDriftPlot(
    `drift-${first?.side ?? ''}`,
    title,
    shares.map(({ label, points }) => ({
      label,
      points: points.map((point, event) => ({ ...point, label: events[event] ?? '' })),
    })),
  );
  const table = html`<table>
    <caption>
      ${title}
    </caption>
    <thead>
      <tr>
        <th scope="col">Event</th>
        ${shares.map(({ label }) => html`<th scope="col">${label}</th>`)}
      </tr>
    </thead>
    <tbody>
      ${events.map(
        (event, at) =>
          html`<tr>
            <th scope="row">${event}</th>
            ${shares.map((share) => html`<td>${pointWords(share, at)}</td>`)}
          </tr>`,
      )}
    </tbody>
  </table>`;
  return figure(
    picture,
    `${title}, the earliest on top. Dot: share of the plays on which it is known. Line: ${percent(confidence)} interval. Open dot and broken line: fewer than ${FEWEST_FOR_PERCENT} plays.`,
    scrolling(`${title}, table`, table),
    'The same as a table',
  );
}

// In words only: what is called most is cited with its plays in its own section, and paper would list them again.
function pointWords({ points }: ShareOverEvents, at: number): string {
  const point = points[at];
  return point === undefined || point.known === 0 ? 'not known' : `${point.count} of ${point.known}`;
}
