import type { Browser, Page } from 'playwright-core';
import { launchChromium } from '../support/chromium.js';
import { startDemoApi, type DemoApi } from '../support/demo-api.js';
import { readPdf } from '../support/pdf.js';
import { seriousViolationsOf } from '../support/violations.js';

let demo: DemoApi;
let browser: Browser;
let judged: string | null;

beforeAll(async () => {
  browser = await launchChromium();
  demo = await startDemoApi();
  judged = await demo.judgedReport();
}, 120_000);
afterAll(async () => {
  await browser.close();
  await demo.close();
});

async function opened(query = '', width = 1280): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    extraHTTPHeaders: { Authorization: `Bearer ${demo.clan.key}`, Accept: 'text/html' },
  });
  const page = await context.newPage();
  expect((await page.goto(`${demo.url}/v1/round-reports/${judged}/report-card${query}`))?.status()).toBe(200);
  return page;
}

describe('the report card as a page', () => {
  it.each([
    { paper: 'a4', width: 595, height: 842 },
    { paper: 'letter', width: 612, height: 792 },
  ])('prints on $paper, from its title to the calibration', async ({ paper, width, height }) => {
    const page = await opened(`?paper=${paper}`);
    const printed = await readPdf(await page.pdf({ preferCSSPageSize: true }));
    expect(printed).toMatchObject({ width, height });
    const text = printed.pages.map((of) => of.replace(/\s+/g, ' '));
    expect(text[0]).toContain('Report card: ');
    expect(text[0]).toContain('One match cannot confirm or refute a report');
    expect(text.join(' ')).toContain('Calibration over all');
    await page.context().close();
  });

  it.each([360, 1280])('has all of its width in view at %i pixels', async (width) => {
    const page = await opened('', width);
    const wide = await page.evaluate<number>('document.documentElement.scrollWidth');
    expect(wide).toBeLessThanOrEqual(width);
    await page.context().close();
  });

  it('has no serious violation of accessibility', async () => {
    const page = await opened();
    expect(await seriousViolationsOf(page)).toEqual([]);
    await page.context().close();
  });
});
