import type { RoundReport } from '#domain/reports/round-report-shape.js';
import { escapedMarkdown, markdownAddress } from './escaped-markdown.js';
import type { ReportNames } from './report-names.js';
import { readableReport, type ReadableReport } from './report-sections.js';
import type { Section, SectionBlock, SectionItem } from './section-shape.js';

/**
 * The report as GitHub-flavoured Markdown. Every text from outside is escaped: no handle can open a link, an image, a
 * table cell or a tag.
 *
 * @param report - as assembled or as frozen earlier
 * @param names  - what its ids stand for, for this reader
 * @see CommonMark Spec 0.31 (2024), section 2.4 (backslash escapes); GitHub Flavored Markdown Spec, tables
 */
export function roundReportMarkdown(report: RoundReport, names: ReportNames): string {
  return readableMarkdown(readableReport(report, names));
}

/** Any page of sections as Markdown, escaped like a report. */
export function readableMarkdown({ title, sections }: ReadableReport): string {
  return `${[`# ${escapedMarkdown(title)}`, ...sections.map(sectionText)].join('\n\n')}\n`;
}

function sectionText({ title, blocks }: Section): string {
  return [`## ${escapedMarkdown(title)}`, ...blocks.map(blockText)].join('\n\n');
}

function blockText(block: SectionBlock): string {
  switch (block.kind) {
    case 'text':
      return escapedMarkdown(block.text);
    case 'list':
      return block.items.map((item, place) => itemText(item, block.ordered ? `${place + 1}.` : '-')).join('\n');
    case 'table':
      return [
        row(block.headers.map(escapedMarkdown)),
        row(block.headers.map(() => '---')),
        ...block.rows.map((cells) => row(cells.map((lines) => lines.map(escapedMarkdown).join('<br>')))),
      ].join('\n');
  }
}

function row(cells: readonly string[]): string {
  return `| ${cells.join(' | ')} |`;
}

function itemText({ text, url }: SectionItem, mark: string): string {
  const address = url === null ? null : markdownAddress(url);
  return `${mark} ${escapedMarkdown(text)}${address === null ? '' : ` [video](${address})`}`;
}
