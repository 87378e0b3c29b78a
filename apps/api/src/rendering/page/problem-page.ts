import { html } from '../html.js';
import { page, type PageFrame } from './page.js';

export interface ProblemView {
  readonly status: number;
  readonly title: string;
  readonly detail?: string;
  /** That was asked for. */
  readonly path: string;
  readonly requestId: string;
}

/** What went wrong, for a person in a browser: who has not signed in is led there, and from there to what was asked for. */
export function problemPage(problem: ProblemView, frame: PageFrame): string {
  const { status, title, detail, path, requestId } = problem;
  if (status === 401) {
    const body = html`<main>
      <h1>Sign in to read this</h1>
      <p>You have not signed in here, or your session has ended.</p>
      <p><a href="/account?next=${encodeURIComponent(path)}">Sign in</a></p>
    </main>`;
    return page('Sign in to read this', body, frame);
  }
  const body = html`<main>
    <h1>${title}</h1>
    ${detail === undefined ? null : html`<p>${detail}</p>`}
    <p><a href="/account">My account</a></p>
    <p class="note">The service's log calls this request ${requestId}.</p>
  </main>`;
  return page(title, body, frame);
}
