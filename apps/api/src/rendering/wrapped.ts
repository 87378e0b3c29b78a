/**
 * A text in lines of at most so many characters, broken at spaces; a word that is longer than a line is cut.
 *
 * @param text  - one line
 * @param width - ≥ 1
 * @returns at least one line, none with a space at its end
 */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((long) => cut(long, width))) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line];
}

function cut(word: string, width: number): string[] {
  const letters = Array.from(word);
  if (word.length <= width) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const letter of letters) {
    if (piece.length + letter.length > width) {
      pieces.push(piece);
      piece = '';
    }
    piece += letter;
  }
  return [...pieces, piece];
}
