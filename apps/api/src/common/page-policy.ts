import { createHash } from 'node:crypto';
import type { Response } from 'express';
import { PAGE_STYLES, type Paper } from '../rendering/page/page-style.js';
import type { PageFrame } from '../rendering/page/page.js';

/** Which sheet, and nothing allowed in the page but its own style: no script, no picture, no frame, no form. */
export function pageFrame(paper: Paper): PageFrame {
  const hash = createHash('sha256').update(PAGE_STYLES[paper]).digest('base64');
  return {
    paper,
    policy: `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`,
  };
}

/** Sends a page. */
export function sendPage(response: Response, page: string, frame: PageFrame): void {
  guardPage(response, frame).type('text/html; charset=utf-8').send(page);
}

/** Who may frame a page can only be said in the header. */
export function guardPage(response: Response, { policy }: PageFrame): Response {
  return response.setHeader('Content-Security-Policy', `${policy}; frame-ancestors 'none'`);
}
