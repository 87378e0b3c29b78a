import type { RoundReport } from '#domain/reports/round-report-shape.js';
import { oneLine, webAddress } from './plain-words.js';
import type { ReportNames } from './report-names.js';
import { readableReport, type ReadableReport } from './report-sections.js';
import type { Section, SectionBlock, SectionItem } from './section-shape.js';
import { textTable } from './text-table.js';
import { wrapped } from './wrapped.js';

/** Columns of the text; only the address of a video may be longer, since a broken one is of no use. */
const TEXT_WIDTH = 100;

/**
 * The report as plain text for a terminal or a message. Names from outside are printed without control characters.
 *
 * @param report - as assembled or as frozen earlier
 * @param names  - what its ids stand for, for this reader
 * @returns lines of at most 100 characters, the last one ended
 */
export function roundReportText(report: RoundReport, names: ReportNames): string {
  return readableText(readableReport(report, names));
}

/** Any page of sections as plain text. */
export function readableText({ title, sections }: ReadableReport): string {
  const head = wrapped(oneLine(title), TEXT_WIDTH);
  const lines = [...head, '='.repeat(Math.min(TEXT_WIDTH, Math.max(...head.map((line) => line.length))))];
  return `${[...lines, ...sections.flatMap(sectionLines)].join('\n')}\n`;
}

function sectionLines({ title, blocks }: Section): string[] {
  return ['', title, '-'.repeat(title.length), ...blocks.flatMap(blockLines)];
}

function blockLines(block: SectionBlock): string[] {
  switch (block.kind) {
    case 'text':
      return wrapped(oneLine(block.text), TEXT_WIDTH);
    case 'list':
      return block.items.flatMap((item, place) => itemLines(item, block.ordered ? `${place + 1}.` : '-'));
    case 'table':
      return textTable(block.headers, block.rows, TEXT_WIDTH);
  }
}

function itemLines({ text, url }: SectionItem, mark: string): string[] {
  const lead = `${mark} `.padStart(4);
  const rest = ' '.repeat(lead.length);
  const lines = wrapped(oneLine(text), TEXT_WIDTH - lead.length);
  const address = url === null ? null : webAddress(url);
  return [
    ...lines.map((line, place) => (place === 0 ? lead : rest) + line),
    ...(address === null ? [] : [rest + address]),
  ];
}
