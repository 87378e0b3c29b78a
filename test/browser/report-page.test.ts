import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { launchChromium } from '../support/chromium.js';
import { startDemoApi, type DemoApi } from '../support/demo-api.js';
import { readPdf } from '../support/pdf.js';
import { seriousViolationsOf, type Violation } from '../support/violations.js';

const HEADINGS = [
  'Who is next',
  'What stands out from the field',
  'What gives it away',
  'Sequences and answers',
  'What changed',
  'What has held them, what has beaten them',
  'How to mix our calls',
  'Offense',
  'Defense',
  'Film to watch, in this order',
  'The path so far',
  'What this film could not tell',
  'What this rests on',
  'Before you use this',
  'Plays behind the numbers',
];

// Run inside the page, so they are texts: our own code knows no document.
const OVERHANG = 'document.documentElement.scrollWidth - document.documentElement.clientWidth';
const OPEN_TABLES = `for (const details of document.querySelectorAll('details')) details.open = true`;
const HEADING_LEVELS = `[...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].map((each) => Number(each.tagName[1]))`;
const CELL_COLOURS = `[...document.querySelectorAll('svg .cell')].map((cell) =>
  ['rect', 'text'].map((mark) => getComputedStyle(cell.querySelector(mark)).fill))`;
// Thousands of plays are all alike, and looking at each of them takes minutes.
const KEEP_FIRST_PLAYS = `for (const item of document.querySelectorAll('.evidence li:nth-child(n + 6)')) item.remove()`;

let demo: DemoApi;
let browser: Browser;
let reportUrl: string;
let key: string;

/** The demo's report: a league's worth of half-filled charts, as a person would get it. */
beforeAll(async () => {
  browser = await launchChromium();
  demo = await startDemoApi();
  key = demo.clan.key;
  reportUrl = `${demo.url}/v1/round-reports/${demo.reportId}`;
});

afterAll(async () => {
  await browser.close();
  await demo.close();
});

/** An opened page and whatever went wrong in it. */
interface Opened {
  readonly page: Page;
  readonly complaints: readonly string[];
  readonly requests: readonly string[];
}

async function opened(url: string, options: BrowserContextOptions = {}): Promise<Opened> {
  const context = await browser.newContext({
    extraHTTPHeaders: { Authorization: `Bearer ${key}`, Accept: 'text/html' },
    ...options,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  const requests: string[] = [];
  page.on('console', (message) => complaints.push(`console: ${message.text()}`));
  page.on('pageerror', (error) => complaints.push(`script: ${error.message}`));
  page.on('requestfailed', (request) => complaints.push(`failed: ${request.url()}`));
  page.on('request', (request) => requests.push(request.url()));
  page.on('response', (response) => {
    if (response.status() >= 400) complaints.push(`${response.status()}: ${response.url()}`);
  });
  await page.goto(url);
  return { page, complaints, requests };
}

async function seriousViolations(page: Page): Promise<Violation[]> {
  await page.evaluate(KEEP_FIRST_PLAYS);
  return seriousViolationsOf(page);
}

describe.each([
  ['a phone', 390],
  ['a desk', 1280],
])('the report page at the width of %s', (_, width) => {
  const options = { viewport: { width, height: 900 } };

  it('loads itself and nothing else, without complaint', async () => {
    const { page, complaints, requests } = await opened(reportUrl, options);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([reportUrl]);
    await page.context().close();
  });

  it('never scrolls sideways, opened tables included', async () => {
    const { page } = await opened(reportUrl, options);
    expect(await page.evaluate(OVERHANG)).toBe(0);
    await page.evaluate(OPEN_TABLES);
    expect(await page.evaluate(OVERHANG)).toBe(0);
    await page.context().close();
  });

  it('has no serious violation of accessibility, opened tables included', async () => {
    const { page } = await opened(reportUrl, options);
    await page.evaluate(OPEN_TABLES);
    expect(await seriousViolations(page)).toEqual([]);
    await page.context().close();
  });
});

describe('the report page', () => {
  it('has one first heading and skips no level', async () => {
    const { page } = await opened(reportUrl);
    const levels = await page.evaluate<number[], undefined>(HEADING_LEVELS, undefined);
    expect(levels[0]).toBe(1);
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    for (const [at, level] of levels.entries()) expect(level).toBeLessThanOrEqual((levels[at - 1] ?? 0) + 1);
    await page.context().close();
  });

  it('is the same without JavaScript', async () => {
    const { page } = await opened(reportUrl, { javaScriptEnabled: false });
    expect(await page.locator('h2').allTextContents()).toEqual(HEADINGS);
    expect(await page.locator('svg[role=img]').count()).toBeGreaterThanOrEqual(3);
    await page.context().close();
  });

  it('leads from a number to its plays, and from there to their second of the video', async () => {
    const { page } = await opened(reportUrl);
    const first = page.locator('a.counts').first();
    const target = page.locator((await first.getAttribute('href')) ?? '');
    await first.click();
    expect(new URL(page.url()).hash).toMatch(/^#plays-\d+$/);
    expect((await target.boundingBox())?.y).toBeLessThan(page.viewportSize()?.height ?? 0);
    const links = await target.locator('a[href^="https://"]').all();
    const films = await Promise.all(links.map((link) => link.getAttribute('href')));
    expect(films.length).toBeGreaterThan(0);
    for (const film of films) expect(film).toMatch(/^https:\/\/video\.example\/[a-z0-9-]+#t=\d+$/);
    await page.context().close();
  });

  it('reads in grey: contrast of 4.5 and more between the number and the fill of each cell', async () => {
    const { page } = await opened(reportUrl);
    const cells = await page.evaluate<[fill: string, ink: string][], undefined>(CELL_COLOURS, undefined);
    expect(cells.length).toBeGreaterThan(50);
    for (const [fill, ink] of cells) expect(contrast(grey(fill), grey(ink))).toBeGreaterThanOrEqual(4.5);
    await page.context().close();
  });

  it('kept as a file looks as it did and still loads nothing', async () => {
    const answer = await fetch(reportUrl, { headers: { Authorization: `Bearer ${key}`, Accept: 'text/html' } });
    const folder = await mkdtemp(join(tmpdir(), 'report-page-'));
    const file = join(folder, 'report.html');
    await writeFile(file, await answer.text());
    const { page, complaints, requests } = await opened(`file://${file}`);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([`file://${file}`]);
    expect(await page.evaluate('getComputedStyle(document.body).maxWidth')).toBe('992px');
    await page.context().close();
    await rm(folder, { recursive: true });
  });
});

describe('the film list as a page', () => {
  it('loads without complaint and without a serious violation of accessibility', async () => {
    const { page, complaints } = await opened(`${reportUrl}/film`);
    expect(complaints).toEqual([]);
    expect(await seriousViolations(page)).toEqual([]);
    expect(await page.locator('ol a').first().getAttribute('href')).toMatch(/#t=\d+$/);
    await page.context().close();
  });
});

describe('the printed report', () => {
  // ISO 216: A4 is 210 x 297 mm; ANSI Letter is 8.5 x 11 inches. A point is 1/72 inch.
  it.each([
    ['A4', '', { format: 'A4' as const }, 596, 843],
    ['Letter', '', { format: 'Letter' as const }, 612, 792],
    ['A4 as the page says', '?paper=a4', { preferCSSPageSize: true }, 596, 842],
    ['Letter as the page says', '?paper=letter', { preferCSSPageSize: true }, 612, 792],
  ])('on %s has its headings in order on numbered pages', async (_, query, paper, width, height) => {
    const { page } = await opened(`${reportUrl}${query}`);
    const printed = await readPdf(await page.pdf(paper));
    await page.context().close();
    expect(Math.abs(printed.width - width)).toBeLessThanOrEqual(1);
    expect(Math.abs(printed.height - height)).toBeLessThanOrEqual(1);

    const { pages } = printed;
    expect(pages.length).toBeGreaterThanOrEqual(8);
    // Most of them are the plays behind the numbers.
    expect(pages.length).toBeLessThanOrEqual(28);
    for (const [at, text] of pages.entries()) {
      expect(text.trim().length).toBeGreaterThan(100);
      expect(text).toContain(`${at + 1} / ${pages.length}`);
    }
    const lines = pages.join('\n').split('\n');
    const places = HEADINGS.map((heading) => lines.indexOf(heading));
    expect(places).not.toContain(-1);
    // "Offense" and "Defense" head the first sections' columns too, before their own.
    const ordered = places.filter((_place, at) => HEADINGS[at] !== 'Offense' && HEADINGS[at] !== 'Defense');
    expect(ordered).toEqual([...ordered].sort((a, b) => a - b));
    // A drawing, whose last words are those of its legend, and its caption are on one page.
    for (const text of pages.filter((each) => each.includes('60 % and more'))) {
      expect(text).toContain('In each cell how often');
    }
    // What matters first is on the first page, and no heading ends one.
    expect(pages[0]).toContain('What stands out from the field');
    for (const text of pages) {
      const [last = ''] = text.trim().split('\n').slice(-2);
      expect(HEADINGS).not.toContain(last);
    }
  });
});

/** Linear light of a colour as a grey print shows it. WCAG 2.2, "relative luminance". */
function grey(color: string): number {
  const [red = 0, green = 0, blue = 0] = (color.match(/\d+/g) ?? []).map((part) => {
    const value = Number(part) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: number, b: number): number {
  return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
}
