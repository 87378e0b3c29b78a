import { html, type Html } from '../html.js';

/** A drawing with the words that stand for it where it is not seen. */
export interface Picture {
  /** Unique in its page; the ids of title and description are made from it. */
  readonly id: string;
  readonly title: string;
  readonly description: string;
  /** Units of the drawing; it is scaled to the width that the page gives it. */
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Html[];
}

/**
 * An inline SVG. Written by hand rather than by a plotting library: three kinds of drawing need a few dozen lines each,
 * a library and the document that it wants on the server some thirty packages; labels that stay readable at the width
 * of a phone and shades that survive grey print would have to be written all the same.
 *
 * @see SVG Accessibility API Mappings 1.0, section 4 (title and desc name and describe what has role img)
 */
export function svgPicture({ id, title, description, width, height, marks }: Picture): Html {
  return html`<svg
    id="${id}"
    role="img"
    aria-labelledby="${id}-title"
    aria-describedby="${id}-description"
    viewBox="0 0 ${width} ${height}"
    width="${width}"
    height="${height}"
    xmlns="http://www.w3.org/2000/svg"
  >
    <title id="${id}-title">${title}</title>
    <desc id="${id}-description">${description}</desc>
    ${marks}
  </svg>`;
}

/** Two decimals of a unit are finer than any printer. */
export function place(units: number): string {
  return `${Math.round(units * 100) / 100}`;
}
