export function upperFirst(text: string): string {
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}

export function lowerFirst(text: string): string {
  return `${text.slice(0, 1).toLowerCase()}${text.slice(1)}`;
}

/** The day of an ISO 8601 date or instant as it stands, without moving it to another time zone. */
export function dayWords(iso: string): string {
  return iso.slice(0, 'YYYY-MM-DD'.length);
}

/** A second of a video as `m:ss`, with hours from one hour on: `7:05`, `1:02:09`. */
export function clockWords(second: number): string {
  const pad = (value: number): string => `${value}`.padStart(2, '0');
  const hours = Math.floor(second / 3600);
  const minutes = Math.floor((second % 3600) / 60);
  const seconds = pad(Math.floor(second % 60));
  return hours === 0 ? `${minutes}:${seconds}` : `${hours}:${pad(minutes)}:${seconds}`;
}

// Control characters move a terminal's cursor; direction marks make a text read as another one.
const UNPRINTABLE = /[\p{Cc}\p{Zl}\p{Zp}\u061c\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]+/gu;

/** A text from outside with a space for whatever does not print. */
export function printable(text: string): string {
  return text.replace(UNPRINTABLE, ' ');
}

/** A text from outside as one harmless line: what does not print becomes a space, runs of spaces become one. */
export function oneLine(text: string): string {
  return printable(text).replace(/ {2,}/g, ' ').trim();
}

/** At most so many characters, with an ellipsis where something was left out. */
export function shortened(text: string, most: number): string {
  const letters = Array.from(oneLine(text));
  return letters.length <= most
    ? letters.join('')
    : `${letters
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`;
}

/** The address if it is one of the web, as a browser would write it; null for any other (`javascript:`, a file). */
export function webAddress(url: string): string | null {
  if (!URL.canParse(url)) return null;
  const { protocol, href } = new URL(url);
  return protocol === 'https:' || protocol === 'http:' ? href : null;
}
