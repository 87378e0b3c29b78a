/** Enough of a value to find it again in what was sent. */
const LONGEST = 100;

/** A value that was sent, as a problem shows it; empty for none. */
export function printed(value: unknown): string {
  if (value === undefined || value === null) return '';
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
}
