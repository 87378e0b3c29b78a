import type { SectionBlock } from './section-shape.js';

export function text(words: string): SectionBlock {
  return { kind: 'text', text: words };
}

/** Entries that are to be seen nowhere else. */
export function list(items: readonly string[]): SectionBlock {
  return { kind: 'list', ordered: false, items: items.map((item) => ({ text: item, url: null })) };
}
