/** Shared by all calls, none of which is left before it is done. */
let scratch = Buffer.allocUnsafe(256 * 1024);
/** UTF-8 has no more bytes than that for a unit of JavaScript's texts. */
const MOST_BYTES_A_UNIT = 3;

/**
 * Texts one behind the other as bytes. A long text that was added up of many is put together before it becomes bytes, which
 * takes the longer a piece the longer it is; given part by part it is not.
 */
export function bytesOf(texts: Iterable<string>): Buffer {
  let length = 0;
  for (const text of texts) {
    const most = length + MOST_BYTES_A_UNIT * text.length;
    if (most > scratch.length) {
      const larger = Buffer.allocUnsafe(2 * most);
      scratch.copy(larger, 0, 0, length);
      scratch = larger;
    }
    length += scratch.write(text, length);
  }
  return Buffer.from(scratch.subarray(0, length));
}
