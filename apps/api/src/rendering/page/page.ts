import { html, styleElement, type Html } from '../html.js';
import { PAGE_STYLES, type Paper } from './page-style.js';

/** What stands around a page's content. */
export interface PageFrame {
  readonly paper: Paper;
  /** Content security policy; said inside the page too, for the copy that somebody saves. */
  readonly policy: string;
}

/** A whole document. Kept files and print must look as it did on the screen, so it brings all that it needs. */
export function page(title: string, body: Html, { paper, policy }: PageFrame): string {
  const document = html`<html lang="en">
    <head>
      <meta charset="utf-8" />
      <meta http-equiv="Content-Security-Policy" content="${policy}" />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="referrer" content="no-referrer" />
      <meta name="robots" content="noindex" />
      <title>${title}</title>
      ${styleElement(PAGE_STYLES[paper])}
    </head>
    <body>
      ${body}
    </body>
  </html>`;
  return `<!doctype html>\n${document.text}\n`;
}
