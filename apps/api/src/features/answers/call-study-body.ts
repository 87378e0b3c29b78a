import { readableCallStudy, type PageCallStudy } from '../../rendering/call-study-sections.js';
import { callStudyPage } from '../../rendering/page/call-study-page.js';
import type { PageFrame } from '../../rendering/page/page.js';
import { readableMarkdown } from '../../rendering/round-report-markdown.js';
import type { CallStudyResponse } from './call-studies.dto.js';

export const CALL_STUDY_TYPES = ['application/json', 'text/markdown', 'text/html'] as const;
export type CallStudyType = (typeof CALL_STUDY_TYPES)[number];

/** A study as data, and what else its page shows. */
export interface FoundStudy {
  readonly study: CallStudyResponse;
  readonly page: PageCallStudy;
}

/** A study in the media type that was asked for. */
export function callStudyBody({ study, page }: FoundStudy, type: CallStudyType, frame: PageFrame): object | string {
  switch (type) {
    case 'text/html':
      return callStudyPage(page, frame);
    case 'text/markdown':
      return readableMarkdown(readableCallStudy(study));
    case 'application/json':
      return study;
  }
}
