import { readFileSync } from 'node:fs';
import { readSettings } from '../config/settings.js';
import { createApp } from '../create-app.js';
import { openApiDocument } from '../documents.js';
import { rolesPage } from './roles-page.js';

describe('the reference of roles', () => {
  it("is printed from the API's description: `npm run docs:roles` writes it anew", async () => {
    // Nobody asks for data, so no connection is made.
    const app = await createApp(readSettings({ LOG_LEVEL: 'silent' }), 'postgres://nobody@127.0.0.1:1/none');
    expect(readFileSync('docs/reference/roles.md', 'utf8')).toBe(rolesPage(openApiDocument(app)));
    await app.close();
  });
});
