import { createHash } from 'node:crypto';
import type { Response } from 'express';
import { PAGE_STYLES } from '../../rendering/page/page-style.js';
import type { PageFrame } from '../../rendering/page/page.js';

/** Nothing allowed in the page but its own style, and forms that lead back here. */
export function formFrame(): PageFrame {
  const hash = createHash('sha256').update(PAGE_STYLES.any).digest('base64');
  return {
    paper: 'any',
    policy: `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'self'`,
  };
}

/** A page of one person, which no cache keeps and no other page frames. */
export function sendForm(response: Response, page: string, { policy }: PageFrame): void {
  response
    .setHeader('Content-Security-Policy', `${policy}; frame-ancestors 'none'`)
    .setHeader('Cache-Control', 'no-store')
    .type('text/html; charset=utf-8')
    .send(page);
}
