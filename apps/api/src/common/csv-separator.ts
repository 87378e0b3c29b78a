import { createReadStream } from 'node:fs';

export type CsvSeparator = ',' | ';' | '\t';

const LONGEST_HEADER = 65_535;

/** What parts the columns of a file: a comma, unless its first line has more semicolons or tabs. */
export async function csvSeparator(path: string): Promise<CsvSeparator> {
  const header = await firstLine(path);
  const times = (mark: string): number => header.split(mark).length;
  return ([';', '\t'] as const).reduce<CsvSeparator>((best, mark) => (times(mark) > times(best) ? mark : best), ',');
}

async function firstLine(path: string): Promise<string> {
  const start = createReadStream(path, { encoding: 'utf8', end: LONGEST_HEADER });
  for await (const chunk of start as AsyncIterable<string>) return chunk.split(/[\r\n]/, 1)[0] ?? '';
  return '';
}
