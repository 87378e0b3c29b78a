import type { Browser, Page } from 'playwright-core';
import { launchChromium } from '../support/chromium.js';
import { aClan, aMember } from '../support/factories.js';
import { CHEAP_PASSPHRASES, PASSPHRASE } from '../support/person.js';
import { startTestApi, type TestApi } from '../support/test-api.js';
import { violationsOf } from '../support/violations.js';

// Run inside the page, so a text: our own code knows no document.
const OVERHANG = 'document.documentElement.scrollWidth - document.documentElement.clientWidth';

const CUT = `[...document.querySelectorAll('.scrolling')].filter((each) => each.scrollWidth > each.clientWidth).length`;
const SMALL = `[...document.querySelectorAll('input:not([type=hidden], [type=checkbox]), select, button')].filter((each) =>
  each.getBoundingClientRect().height < 44 || parseFloat(getComputedStyle(each).fontSize) < 16).map((each) => each.outerHTML)`;
const PHONE =
  'Mozilla/5.0 (Linux; Android 14) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0.0.0 Mobile Safari/537.36';

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
  expect({ name, violations: await violationsOf(page) }).toEqual({ name, violations: [] });
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

it('is typed and read on a phone: nothing is small, and nothing is cut', async () => {
  const { owner } = api.database;
  const { id } = await aClan(owner);
  const { session } = await aMember(owner, id, 'owner', { name: 'Sorrel' });
  await aMember(owner, id, 'reader', { name: 'Campion' });
  await owner.query('update app.person_session set user_agent = $1', [PHONE]);
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  await page.goto(url);
  await page.getByText('You join by an invitation link').waitFor();
  expect(await page.evaluate(SMALL)).toEqual([]);
  await context.addCookies([{ name: 'roundbook', value: session, url }]);
  await page.goto(url);
  await page.getByLabel('What it is for').fill('dashboard on the wall');
  await page.getByLabel('write', { exact: true }).check();
  await page.getByText("charts games and keeps the clan's records").waitFor();
  await page.getByRole('button', { name: 'Make a key' }).click();
  await page.getByText('Chrome on Android').waitFor();
  expect(await page.evaluate(SMALL)).toEqual([]);
  expect(await page.evaluate(CUT)).toBe(0);
  expect(await page.evaluate(OVERHANG)).toBe(0);
  await context.close();
});

it('keeps what was typed into an invitation, and says beside the field what it needs', async () => {
  const clan = await aClan(api.database.owner);
  const { body } = await api.as(clan).post('/v1/invitations').send({ role: 'reader' });
  const page = await browser.newPage();
  await page.goto(`${url}${new URL(String(body.link)).pathname}`);
  await page.getByLabel('Your name in the clan').fill('Teasel');
  await page.getByLabel('Name to sign in with').fill('teasel');
  await page.getByLabel(/^Passphrase/).fill('short');
  // As a browser sends it that does not look at the fields itself.
  await page.evaluate('document.forms[0].noValidate = true');
  await page.getByRole('button', { name: 'Join' }).click();
  await page.getByText('Needs 15 to 256 characters.').waitFor();
  expect(await page.getByLabel('Your name in the clan').inputValue()).toBe('Teasel');
  expect(await page.getByLabel('Name to sign in with').inputValue()).toBe('teasel');
  expect(await page.getByLabel(/^Passphrase/).inputValue()).toBe('');
  await page.getByLabel(/^Passphrase/).fill(PASSPHRASE);
  await page.getByRole('button', { name: 'Join' }).click();
  await page.getByRole('heading', { name: 'My account' }).waitFor();
  await page.close();
});
