import { FORETOLD_WORDS } from '#domain/report-card/words.js';
import { percent } from '#domain/tendencies/words/count-words.js';
import { html, type Html } from '../html.js';
import { differencePlot } from '../plots/difference-plot.js';
import { reliabilityPlot } from '../plots/reliability-plot.js';
import { shareDotsPlot } from '../plots/share-dots-plot.js';
import { cardSections, cardTitle, headBlocks, type ReadReportCard } from '../report-card-sections.js';
import { CAUTION } from '../report-sections.js';
import { captioned } from './figures.js';
import { page, type PageFrame } from './page.js';
import { blocksMarkup } from './section-blocks.js';

/** A report card as one page that prints on its own: no script, nothing loaded from anywhere. */
export function reportCardPage(card: ReadReportCard, frame: PageFrame): string {
  const title = cardTitle(card);
  const sections = cardSections(card);
  const body = html`<header>
      <h1>${title}</h1>
      ${blocksMarkup(headBlocks(card))}
    </header>
    <nav aria-label="Contents">
      <ul>
        ${sections.map((section) => html`<li><a href="#${section.id}">${section.title}</a></li>`)}
      </ul>
    </nav>
    <main>
      ${sections.map(
        (section) =>
          html`<section id="${section.id}">
            <h2>${section.title}</h2>
            ${drawing(section.id, card)}${blocksMarkup(section.blocks)}
          </section>`,
      )}
      <section>
        <h2>Before you use this</h2>
        ${blocksMarkup(CAUTION)}
      </section>
    </main>`;
  return page(title, body, frame);
}

function drawing(section: string, card: ReadReportCard): Html | null {
  if (section === 'scores') return scoresFigure(card);
  if (section === 'tells') return tellsFigure(card);
  return section === 'calibration' ? calibrationFigure(card) : null;
}

function scoresFigure({ scores, confidence }: ReadReportCard): Html | null {
  if (scores.length === 0) return null;
  const dots = scores.map(({ label, by, plays, logLossDifference: { mean, interval } }) => ({
    ...{ label: `${label}, ${FORETOLD_WORDS[by].name}`, note: `${plays} plays`, mean, interval },
  }));
  return beside(
    differencePlot('score-differences', 'Log loss, less that of what knows nothing of the player', dots),
    `Dot: log loss a play, less that of what knows nothing of the player. Line: ${percent(confidence)} interval. A line across 0 cannot tell the two apart.`,
  );
}

function tellsFigure({ tells, confidence }: ReadReportCard): Html | null {
  const dots = tells.flatMap(({ label, count, known, interval, predicted }) =>
    interval === null
      ? []
      : [{ label, count, known, share: count / known, interval, field: predicted.count / predicted.known }],
  );
  if (dots.length === 0) return null;
  return beside(
    shareDotsPlot('tell-shares', 'Tells in these games', dots),
    `Dot: share of the call with the cue in these games. Line: ${percent(confidence)} interval. Open diamond: what the report counted.`,
  );
}

function calibrationFigure({ calibration: { calibration, plays } }: ReadReportCard): Html | null {
  if (calibration === null) return null;
  return beside(
    reliabilityPlot('calibration-dots', 'How often what was forecast came true', calibration.bins),
    `Passes: forecast against what came true, ${plays} plays. The larger a dot, the more plays. On the broken line a forecast is without fault; few plays stray from it by chance.`,
  );
}

function beside(picture: Html, caption: string): Html {
  return html`<div class="beside">${captioned(picture, caption)}</div>`;
}
