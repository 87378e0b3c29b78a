import { nineOfTwelve, reportInput } from '#domain/reports/report-sample.js';
import { assembleRoundReport } from '#domain/reports/round-report.js';
import type { ReportFilm } from '../report-film.js';
import type { ReportNames } from '../report-names.js';
import { roundReportPage, type PageReport } from './round-report-page.js';

const NAMES: ReportNames = {
  coachingPoint: () => null,
  player: () => 'Quiet Heron',
  event: () => 'Spring Cup',
  game: () => 'the first game',
  video: () => null,
};

/** The sample's second play of the first chart is at second 95: 65 + 30. */
const FILM: ReportFilm = {
  chart: () => ({ revision: 1, video: { url: 'https://video.example/1', offsetSeconds: 0 } }),
  second: ({ playNumber }) => 65 + 30 * (playNumber - 1),
};

const FRAME = { paper: 'any', policy: "default-src 'none'" } as const;

function pageOf(parts: Partial<PageReport> = {}): string {
  const report = assembleRoundReport(nineOfTwelve());
  return roundReportPage({ report, names: NAMES, film: FILM, path: [], ...parts }, FRAME).replace(/\s+/g, ' ');
}

describe('a report as a page', () => {
  const page = pageOf();

  it('has its sections in the order of a reader who has twenty minutes', () => {
    expect([...page.matchAll(/<h2>([^<]+)</g)].map(([, title]) => title)).toEqual([
      'What stands out from the field',
      'Offense',
      'Defense',
      'Film to watch, in this order',
      'The path so far',
      'What this film could not tell',
      'What this rests on',
      'Before you use this',
      'Plays behind the numbers',
    ]);
  });

  it('leads every number to its plays, each with its second of the video', () => {
    const cited = [...page.matchAll(/href="#(plays-\d+)"/g)].map(([, id]) => id);
    expect(cited.length).toBeGreaterThan(5);
    for (const id of cited) expect(page).toContain(`<li id="${id ?? ''}">`);
    expect(page).toMatch(/2 at <a href="https:\/\/video.example\/1#t=95" rel="noreferrer" ?>1:35<\/a/);
  });

  it('leads every link inside it to something that is there', () => {
    for (const [, id] of page.matchAll(/href="#([^"]+)"/g)) expect(page).toContain(`id="${id ?? ''}"`);
  });

  it('has no id twice', () => {
    const ids = [...page.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('loads nothing and runs nothing', () => {
    expect(page).not.toMatch(/<(script|link|img|iframe|object|embed|form|base)\b|\son\w+=|\sstyle=|url\(|@import/i);
    expect(page).toContain('http-equiv="Content-Security-Policy"');
  });

  it('holds no markup from outside', () => {
    const hostile = '"><img src=x onerror=alert(1)></title><script>alert(1)</script>';
    const attacked = pageOf({
      names: {
        ...NAMES,
        player: () => hostile,
        event: () => hostile,
        game: () => hostile,
        video: () => ({ url: hostile, offsetSeconds: 0 }),
      },
      film: { ...FILM, chart: () => ({ revision: 1, video: { url: 'javascript:alert(1)', offsetSeconds: 0 } }) },
      path: [
        { stage: hostile, opponent: hostile, outcome: 'won', score: hostile, forfeited: false, playedOn: hostile },
      ],
    });
    expect(attacked).not.toMatch(/<(script|img)|href="javascript/);
    expect(attacked).toContain('&lt;script&gt;');
  });

  it('says what has changed since, and what the reader may no longer see', () => {
    expect(pageOf({ film: { ...FILM, chart: () => ({ revision: 4, video: null }) } })).toContain(
      'revision 1, changed since: now 4',
    );
    expect(pageOf({ film: { chart: () => null, second: () => null } })).toContain('revision 1, no longer in view');
    expect(pageOf({ names: { ...NAMES, player: () => null } })).toContain('Scouting report: name withheld');
  });

  it('of a player without plays is honest', () => {
    const empty = pageOf({ report: assembleRoundReport(reportInput([], [])) });
    expect(empty).toContain('Nothing of this player is charted.');
    expect(empty).toContain('No snap of this side is charted: nothing is known, which is not zero.');
    expect(empty).toContain('No chart of this player is in view.');
  });

  it('is printed on the sheet that is asked for', () => {
    const report = assembleRoundReport(nineOfTwelve());
    const parts = { report, names: NAMES, film: FILM, path: [] };
    expect(roundReportPage(parts, { ...FRAME, paper: 'letter' })).toContain('@page { size: letter; }');
    expect(page.includes('@page { size')).toBe(false);
  });
});
