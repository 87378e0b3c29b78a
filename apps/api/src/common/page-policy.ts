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

/** Sends something in the media type that was asked for: texts, data, and pages under their own policy. */
export function sendAs(response: Response, type: string, body: object | string, frame: PageFrame): void {
  response.type(negotiated(response, type, frame)).send(body);
}

/** Says that the media type was chosen, and what goes with it; gives its full name. */
export function negotiated(response: Response, type: string, { policy }: PageFrame): string {
  response.vary('Accept');
  // Who may frame a page can only be said in the header.
  if (type === 'text/html') response.setHeader('Content-Security-Policy', `${policy}; frame-ancestors 'none'`);
  return type.startsWith('text/') ? `${type}; charset=utf-8` : type;
}
