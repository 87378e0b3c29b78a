import { html, type Html } from '../html.js';

/** A section of a page, and how the page's contents call it. */
export interface PagePart {
  readonly id: string;
  readonly title: string;
  readonly inContents: string;
  readonly markup: Html;
}

export function contentsMarkup(parts: readonly PagePart[]): Html {
  return html`<nav aria-label="Contents">
    <ul>
      ${parts.map(({ id, inContents }) => html`<li><a href="#${id}">${inContents}</a></li>`)}
    </ul>
  </nav>`;
}

export function partMarkup({ id, title, markup }: PagePart): Html {
  return html`<section id="${id}">
    <h2>${title}</h2>
    ${markup}
  </section>`;
}
