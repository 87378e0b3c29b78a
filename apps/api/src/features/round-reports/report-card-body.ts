import type { PageFrame } from '../../rendering/page/page.js';
import { reportCardPage } from '../../rendering/page/report-card-page.js';
import { readableReportCard, type ReadReportCard } from '../../rendering/report-card-sections.js';
import { readableMarkdown } from '../../rendering/round-report-markdown.js';
import { readableText } from '../../rendering/round-report-text.js';

export const REPORT_CARD_TYPES = ['application/json', 'text/markdown', 'text/plain', 'text/html'] as const;

/** A card in the media type that was asked for. */
export function reportCardBody(
  card: ReadReportCard,
  type: (typeof REPORT_CARD_TYPES)[number],
  frame: PageFrame,
): object | string {
  switch (type) {
    case 'text/html':
      return reportCardPage(card, frame);
    case 'text/markdown':
      return readableMarkdown(readableReportCard(card));
    case 'text/plain':
      return readableText(readableReportCard(card));
    case 'application/json':
      return card;
  }
}
