import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { tool } from './tool.js';

const run = promisify(execFile);

export interface PrintedPages {
  /** In points of 1/72 inch, rounded. */
  readonly width: number;
  readonly height: number;
  /** Text of each page, in reading order. */
  readonly pages: readonly string[];
}

/** What a PDF shows, as other programs than the one that made it see it. */
export async function readPdf(pdf: Buffer): Promise<PrintedPages> {
  const folder = await mkdtemp(join(tmpdir(), 'printed-'));
  try {
    const file = join(folder, 'page.pdf');
    await writeFile(file, pdf);
    const { stdout: facts } = await run(tool(['pdfinfo'], 'poppler-utils'), [file]);
    const { stdout: text } = await run(tool(['pdftotext'], 'poppler-utils'), [file, '-'], { maxBuffer: 2 ** 26 });
    const [, width, height] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(facts) ?? [];
    return {
      width: Math.round(Number(width)),
      height: Math.round(Number(height)),
      pages: text.split('\f').slice(0, -1),
    };
  } finally {
    await rm(folder, { recursive: true });
  }
}
