import { html, type Html } from '../html.js';
import type { SectionBlock } from '../section-shape.js';

/** The blocks that text and Markdown share, as HTML. */
export function blocksMarkup(blocks: readonly SectionBlock[]): Html {
  return html`${blocks.map(blockMarkup)}`;
}

function blockMarkup(block: SectionBlock): Html {
  switch (block.kind) {
    case 'text':
      return html`<p>${block.text}</p>`;
    case 'list': {
      const items = block.items.map(({ text }) => html`<li>${text}</li>`);
      return block.ordered
        ? html`<ol>
            ${items}
          </ol>`
        : html`<ul>
            ${items}
          </ul>`;
    }
    case 'table':
      return html`<table class="stacking">
        <thead>
          <tr>
            ${block.headers.map((header) => html`<th scope="col">${header}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${block.rows.map(
            (cells) =>
              html`<tr>
                ${cells.map(
                  (lines, place) =>
                    html`<td data-header="${block.headers[place] ?? ''}">
                      ${lines.map((line) => html`<p>${line}</p>`)}
                    </td>`,
                )}
              </tr>`,
          )}
        </tbody>
      </table>`;
  }
}
