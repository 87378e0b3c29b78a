import { CODE_VERSION } from '../../config/code-version.js';
import { readableCallSheet } from '../../rendering/call-sheet-sections.js';
import type { ReadCallSheet } from '../../rendering/call-sheet-words.js';
import { callSheetPage } from '../../rendering/page/call-sheet-page.js';
import type { PageFrame } from '../../rendering/page/page.js';
import { readableMarkdown } from '../../rendering/round-report-markdown.js';
import { readableText } from '../../rendering/round-report-text.js';

export const CALL_SHEET_TYPES = ['application/json', 'text/markdown', 'text/plain', 'text/html'] as const;
export type CallSheetType = (typeof CALL_SHEET_TYPES)[number];

/** A sheet in the media type that was asked for. */
export function callSheetBody(read: ReadCallSheet, type: CallSheetType, frame: PageFrame): object | string {
  switch (type) {
    case 'text/html':
      return callSheetPage(read, frame);
    case 'text/markdown':
      return readableMarkdown(readableCallSheet(read));
    case 'text/plain':
      return readableText(readableCallSheet(read));
    case 'application/json': {
      const { sheet, playerId, opponentId, eventId, round, charts, names } = read;
      const opponent = names.player(opponentId);
      return { playerId, opponentId, opponent, eventId, round, codeVersion: CODE_VERSION, charts, sheet };
    }
  }
}
