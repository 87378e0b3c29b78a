/** Joins keys: plays get the same number if all of their parts are the same; -1 where a part is not known. */
export function joinKeys(...parts: readonly Int32Array[]): Int32Array {
  const [first = new Int32Array(0), ...others] = parts;
  return others.reduce<Int32Array>((joined, part) => joinTwo(joined, part), first);
}

function joinTwo(left: Int32Array, right: Int32Array): Int32Array {
  const numbers = new Map<number, number>();
  const span = right.reduce((top, key) => Math.max(top, key), 0) + 1;
  return left.map((key, play) => {
    const other = right[play] ?? -1;
    if (key < 0 || other < 0) return -1;
    const joined = key * span + other;
    const known = numbers.get(joined);
    if (known !== undefined) return known;
    numbers.set(joined, numbers.size);
    return numbers.size - 1;
  });
}
