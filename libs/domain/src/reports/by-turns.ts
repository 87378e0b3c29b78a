/** The first of each list, then the second of each, and so on, so that every list has a say among the first few. */
export function byTurns<Item>(lists: readonly (readonly Item[])[]): Item[] {
  const longest = Math.max(0, ...lists.map(({ length }) => length));
  return Array.from({ length: longest }, (_, turn) => lists.flatMap((list) => list.slice(turn, turn + 1))).flat();
}
