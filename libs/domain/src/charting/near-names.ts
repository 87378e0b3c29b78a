const MOST_SUGGESTIONS = 3;
/** A slip changes about one letter in three at most; further away it is another word. */
const LETTERS_PER_SLIP = 3;
const MOST_SLIPS = 3;

/**
 * What may have been meant by a word that is none of these. Common practice, no source.
 *
 * @param names - what each word is a word for; words as they are compared
 * @param typed - in the same form
 * @returns up to three names, nearest first; none for what is no slip of any of the words
 */
export function nearNames(names: Iterable<readonly [word: string, name: string]>, typed: string): readonly string[] {
  const mostSlips = Math.min(MOST_SLIPS, Math.floor(typed.length / LETTERS_PER_SLIP));
  const slipsByName = new Map<string, number>();
  for (const [word, name] of names) {
    if (Math.abs(word.length - typed.length) > mostSlips) continue;
    const slips = editDistance(word, typed);
    if (slips <= mostSlips && slips < (slipsByName.get(name) ?? Infinity)) slipsByName.set(name, slips);
  }
  const nearestFirst = [...slipsByName].sort(([, slips], [, others]) => slips - others);
  return nearestFirst.slice(0, MOST_SUGGESTIONS).map(([name]) => name);
}

/** Letters to insert, drop, change or swap with their neighbour (each pair at most once) to get from one to the other. */
function editDistance(from: string, to: string): number {
  let beforePrevious: readonly number[] = [];
  let previous: readonly number[] = Array.from({ length: to.length + 1 }, (_, letters) => letters);
  for (let i = 0; i < from.length; i++) {
    let last = i + 1;
    const row = [last];
    for (let j = 0; j < to.length; j++) {
      const changed = (previous[j] ?? Infinity) + (from[i] === to[j] ? 0 : 1);
      const swaps = i > 0 && j > 0 && from[i] === to[j - 1] && from[i - 1] === to[j];
      const swapped = swaps ? (beforePrevious[j - 1] ?? Infinity) + 1 : Infinity;
      last = Math.min(last + 1, (previous[j + 1] ?? Infinity) + 1, changed, swapped);
      row.push(last);
    }
    beforePrevious = previous;
    previous = row;
  }
  return previous.at(-1) ?? Math.max(from.length, to.length);
}
