/** Words that stand in that form as they are, as nearly all of a chart's do. */
const PLAIN = /^[a-z0-9]+(?: [a-z0-9]+)*$/;
const ACCENTS = /[\u0300-\u036f]/g;
const SEPARATORS = /[\s\p{Dash_Punctuation}\u2212_/\\\u2044\u2215]+/gu;

/**
 * The form in which words of a vocabulary are compared: compatibility-decomposed (NFKD), without Latin, Greek and
 * Cyrillic accents, in lower case, and with dashes, underscores, slashes and white space as one space, trimmed. Marks of
 * other scripts stay: there they are letters rather than ornament. Idempotent.
 *
 * Digits stay digits: full-width and raised ones become plain (`３x１` -> `3x1`), but none is spelled out, so that `3x1`
 * and `three by one` are two words, which a term joins by naming both. `&` and all other punctuation stay as they are,
 * and `&` is not read as "and".
 */
export function normaliseTerm(text: string): string {
  if (PLAIN.test(text)) return text;
  // Lower case can bring out a character that decomposes again, hence the second pass.
  const plain = text.normalize('NFKD').toLowerCase().normalize('NFKD').replace(ACCENTS, '');
  return plain.replace(SEPARATORS, ' ').trim();
}
