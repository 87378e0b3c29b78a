import { oneLine, webAddress } from './plain-words.js';

// The characters that CommonMark or GitHub's tables, mentions and bare links give a meaning to.
const MEANINGFUL = /[\\`*_{}[\]#+!|~$^=@]/g;

/**
 * A text as one line of Markdown that reads as it was written. Tags and entities are written as entities, since not
 * every reader honours an escaped angle bracket.
 *
 * @see CommonMark Spec 0.31 (2024), sections 2.4 and 2.5
 */
export function escapedMarkdown(text: string): string {
  return (
    oneLine(text)
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replace(MEANINGFUL, '\\$&')
      // Bare addresses become links by themselves unless they are broken up.
      .replace(/(https?|ftp):\/\//gi, '$1&#58;//')
      .replace(/www\./gi, (start) => `${start.slice(0, -1)}&#46;`)
      // Only at the start of a line do these make a list, a rule or a heading.
      .replace(/^([-+])/, '\\$1')
      .replace(/^(\d+)([.)])/, '$1\\$2')
  );
}

/** A web address safe inside `(...)`, or null where it is none. */
export function markdownAddress(url: string): string | null {
  const address = webAddress(url);
  if (address === null) return null;
  return address.replace(/[()<>\\\s|`*_[\]]/g, (letter) => `%${letter.charCodeAt(0).toString(16).padStart(2, '0')}`);
}
