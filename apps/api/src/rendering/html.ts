import { printable } from './plain-words.js';

/** Markup that is safe to put into a page: only `html` makes it. */
class Markup {
  constructor(readonly text: string) {}
}

export type Html = Markup;

type HtmlValue = string | number | Html | null | readonly Html[];

/**
 * Markup from a template: every text put into it is escaped, for elements and quoted attributes alike, whatever it
 * holds; null leaves nothing. For HTML and SVG.
 *
 * @see HTML Living Standard, sections 13.1.2.3 (attributes) and 13.1.4 (character references)
 */
export function html(parts: TemplateStringsArray, ...values: readonly HtmlValue[]): Html {
  // The indentation of our source is no part of the page.
  const texts = parts.map((part) => part.replace(/\n\s*/g, '\n'));
  return new Markup(texts.reduce((before, part, place) => `${before}${printed(values[place - 1] ?? null)}${part}`));
}

/** The style sheet of a page, which is ours and is not escaped; it must be a constant. */
export function styleElement(css: string): Html {
  return new Markup(`<style>${css}</style>`);
}

/** `items` with a separator between each two. */
export function joined(items: readonly Html[], separator: string): Html[] {
  return items.flatMap((item, place) => (place === 0 ? [item] : [html`${separator}`, item]));
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

function printed(value: HtmlValue): string {
  if (value === null) return '';
  if (typeof value === 'number') return `${value}`;
  if (typeof value === 'string') return escaped(value);
  if (value instanceof Markup) return value.text;
  return value.map(({ text }) => text).join('');
}

function escaped(text: string): string {
  return printable(text).replace(/[&<>"']/g, (letter) => ENTITIES[letter] ?? '');
}
