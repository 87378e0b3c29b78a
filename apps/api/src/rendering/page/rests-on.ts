import { html, type Html } from '../html.js';
import { CAUTION } from '../report-sections.js';
import type { Evidence } from './evidence.js';
import { blocksMarkup } from './section-blocks.js';

/** What ends a page whose figures are cited: the games, how it may be used, and the plays; all citing comes before. */
export function restsOn(games: Html, evidence: Evidence): Html {
  return html`<h2>Games</h2>
    ${games}
    <h2>Before you use this</h2>
    ${blocksMarkup(CAUTION)}
    <h2 id="plays">Plays behind the numbers</h2>
    ${evidence.list()}`;
}
