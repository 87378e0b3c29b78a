import type { RoundReport } from '#domain/reports/round-report-shape.js';
import { html } from '../html.js';
import type { FilmEntry } from '../report-film.js';
import { page, type PageFrame } from './page.js';
import { filmList } from './round-report-page.js';

/** The plays to watch as a page of links that open each video at its second. */
export function filmPage(entries: readonly FilmEntry[], report: RoundReport, who: string, frame: PageFrame): string {
  const title = `Film to watch: ${who}`;
  return page(
    title,
    html`<main>
      <h1>${title}</h1>
      <p>The most telling first. Games are numbered as in the report.</p>
      ${filmList(entries, report)}
    </main>`,
    frame,
  );
}
