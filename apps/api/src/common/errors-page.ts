import { PROBLEMS } from './problems.js';

const INTRODUCTION = `# Errors

<!-- Printed from the table of problems by \`npm run docs:errors\`; a test compares. Do not edit. -->

Whatever goes wrong is answered as problem details ([RFC 9457](https://www.rfc-editor.org/rfc/rfc9457)), with the media
type \`application/problem+json\`:

    {
      "type": "urn:roundbook:problem:request.invalid",
      "title": "The request is not valid",
      "status": 400,
      "code": "request.invalid",
      "detail": "some fields are not valid",
      "errors": [{ "field": "down", "found": "5", "expected": "a whole number from 1 to 4" }],
      "instance": "/v1/charts/01890a5d-ac96-774b-bcce-b302099a805e/plays",
      "requestId": "01890a5d-ac96-774b-bcce-b302099a8060"
    }

Decide by \`code\`: it never changes its meaning. \`detail\` is for people and may be worded anew. \`errors\` names each field
with what was found and what was expected; of a file also its \`row\`, counted as a spreadsheet counts. \`requestId\` is also
in the header \`X-Request-Id\` and in the service's log. What another clan keeps and what does not exist are answered alike.

A browser, which asks for \`text/html\` first and brings no key, is told the same on a page.

| code | status | what it means |
|---|---|---|
`;

/** The reference of errors, as Markdown. */
export function errorsPage(): string {
  const rows = Object.entries(PROBLEMS)
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([code, { status, title }]) => `| \`${code}\` | ${status} | ${title} |\n`);
  return INTRODUCTION + rows.join('');
}
