import { readFileSync } from 'node:fs';
import { errorsPage } from './errors-page.js';

describe('the reference of errors', () => {
  it('is printed from the table of problems: `npm run docs:errors` writes it anew', () => {
    expect(readFileSync('docs/reference/errors.md', 'utf8')).toBe(errorsPage());
  });
});
