import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { launchChromium } from '../support/chromium.js';
import { CHEAP_PASSPHRASES, PASSPHRASE } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';

// Run inside the page, so a text: our own code knows no document.
const OVERHANG = 'document.documentElement.scrollWidth - document.documentElement.clientWidth';

let api: TestApi;
let browser: Browser;
let url: string;

beforeAll(async () => {
  api = await startTestApi({ passphrase: CHEAP_PASSPHRASES });
  await api.app.listen(0, '127.0.0.1');
  url = await api.app.getUrl();
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
  await api.close();
});

async function requireSound(page: Page, name: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${name}: ${id} ${nodes[0]?.html ?? ''}`)).toEqual([]);
  expect(await page.evaluate(OVERHANG)).toBe(0);
}

describe.each([
  { name: 'narrow', width: 320 },
  { name: 'wide', width: 1280 },
])('the account page, $name', ({ name, width }) => {
  it('signs up or in, invites and makes keys without scripts, is accessible and fits', async () => {
    const axe = await browser.newContext({ viewport: { width, height: 800 }, bypassCSP: true });
    const page = await axe.newPage();
    await page.goto(`${url}/account`);
    await requireSound(page, `${name}-first`);
    const fresh = (await page.getByLabel('Name of the clan').count()) > 0;
    if (fresh) {
      await page.getByLabel('Name of the clan').fill('Night Shift Almanac');
      await page.getByLabel('Your name in the clan').fill('Marlow');
      await page.getByLabel('Name to sign in with').fill('marlow');
    } else await page.getByLabel('Name', { exact: true }).fill('marlow');
    await page.getByLabel(/^Passphrase/).fill(PASSPHRASE);
    await page.getByRole('button').click();
    await page.getByLabel('What it is for').fill('dashboard on the wall');
    await page.getByLabel('profiles').check();
    await page.getByRole('button', { name: 'Make a key' }).click();
    await requireSound(page, `${name}-key`);
    await page.getByLabel('For whom').fill('Sorrel');
    await page.getByRole('button', { name: 'Make a link' }).click();
    const link = await page.locator('code.secret').textContent();
    await page.goto(`${url}/account`);
    await requireSound(page, `${name}-account`);
    const other = await browser.newContext({ viewport: { width, height: 800 }, bypassCSP: true });
    const invited = await other.newPage();
    await invited.goto(link ?? '');
    await requireSound(invited, `${name}-invitation`);
    await Promise.all([axe.close(), other.close()]);
  });
});
