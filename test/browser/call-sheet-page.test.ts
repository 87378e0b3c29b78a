import type { Browser, Page } from 'playwright-core';
import { launchChromium } from '../support/chromium.js';
import { startDemoApi, type DemoApi } from '../support/demo-api.js';
import { readPdf } from '../support/pdf.js';
import { seriousViolationsOf } from '../support/violations.js';

let demo: DemoApi;
let browser: Browser;
let address: string;

beforeAll(async () => {
  browser = await launchChromium();
  demo = await startDemoApi();
  const [event, player] = [
    await demo.idOf('event', 'weathervane-classic-2026'),
    await demo.idOf('player', 'OxbowFold'),
  ];
  address = `${demo.url}/v1/call-sheets?eventId=${event}&playerId=${player}`;
}, 120_000);
afterAll(async () => {
  await browser.close();
  await demo.close();
});

async function opened(url: string): Promise<Page> {
  const context = await browser.newContext({
    extraHTTPHeaders: { Authorization: `Bearer ${demo.clan.key}`, Accept: 'text/html' },
  });
  const page = await context.newPage();
  expect((await page.goto(url))?.status()).toBe(200);
  return page;
}

describe('the call sheet as a page', () => {
  it.each(['A4', 'Letter'] as const)('prints each side on one page of %s, complete', async (format) => {
    const page = await opened(`${address}&paper=${format.toLowerCase()}`);
    const pages = (await readPdf(await page.pdf({ preferCSSPageSize: true }))).pages.map((text) =>
      text.replace(/\s+/g, ' '),
    );
    const pageOf = (words: string): number => pages.findIndex((text) => text.includes(words));
    expect(pages[0]).toContain('Our offense against GraniteMuffin');
    expect(pages[1]).toContain('Our defense against GraniteMuffin');
    // The last of each side stands on its page, and what is behind comes after.
    for (const last of ['Four-minute, ahead', 'Two-point try']) {
      expect(pages[0]).toContain(last);
      expect(pages[1]).toContain(last);
    }
    expect(pages[0]).toContain('Fourth down, yards to go');
    expect(pages[1]).toContain('Their fourth downs');
    expect(pageOf('How to read it')).toBe(2);
    await page.context().close();
  });

  it('never scrolls sideways on a phone', async () => {
    const page = await opened(address);
    await page.setViewportSize({ width: 390, height: 900 });
    expect(await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth')).toBe(0);
    await page.context().close();
  });

  it('leads every number, cell and clip to what it rests on', async () => {
    const page = await opened(address);
    const markup = await page.content();
    const sheets = markup.slice(0, markup.indexOf('class="behind"'));
    const links = new Set([...sheets.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id ?? ''));
    expect(links.size).toBeGreaterThan(60);
    for (const id of links) expect(markup).toContain(`id="${id}"`);
    await page.context().close();
  });

  it('has no serious violation of accessibility on its sheets', async () => {
    const page = await opened(address);
    expect(await seriousViolationsOf(page, '.sheet')).toEqual([]);
    await page.context().close();
  });
});
