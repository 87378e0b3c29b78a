import { habitsInput } from '#domain/reports/habits/habits-sample.js';
import type { HabitClaim, HabitTopic, ReportHabits } from '#domain/reports/habits/habits-shape.js';
import { nineOfTwelve, reportInput } from '#domain/reports/report-sample.js';
import { assembleRoundReport } from '#domain/reports/round-report.js';
import type { RoundReport } from '#domain/reports/round-report-shape.js';
import { habitSections } from './habit-sections.js';
import { roundReportPage } from './page/round-report-page.js';
import type { ReportNames } from './report-names.js';
import { roundReportMarkdown } from './round-report-markdown.js';
import { roundReportText } from './round-report-text.js';

const HOSTILE = '</p><script>alert(1)</script> |x| [a](javascript:alert(1))';

const NAMES: ReportNames = {
  coachingPoint: () => null,
  player: () => 'Quiet Heron',
  event: (id) => (id === 'event-1' ? 'Spring Cup' : null),
  game: () => 'a game',
  video: () => null,
};

const claim: HabitClaim = {
  ...{ id: 'offense/tells/motion', side: 'offense', topic: 'tells', label: 'run with motion jet' },
  ...{ words: 'motion jet: run 2 of 40 with it, 12 of 40 without', count: 2, known: 40 },
  ...{ interval: { lower: 0.01, upper: 0.14 }, fieldShare: null, fieldKnown: 0, games: 2, status: 'established' },
  plays: [
    { chartId: 'chart-0', playNumber: 1 },
    { chartId: 'chart-0', playNumber: 2 },
  ],
};

const topic = (claims: readonly HabitClaim[], note = 'rests on 80 plays of 2 games'): HabitTopic => ({
  ...{ topic: 'tells', side: 'offense', title: 'Tells', note, claims },
});

const HABITS: ReportHabits = {
  givesAway: [topic([claim])],
  sequences: [topic([], 'nothing follows anything')],
  changed: [],
  events: [
    { eventId: 'event-1', firstPlayedOn: '2031-04-01', games: 2 },
    { eventId: 'event-2', firstPlayedOn: '2031-05-01', games: 1 },
    { eventId: null, firstPlayedOn: null, games: 1 },
  ],
  overEvents: [
    {
      ...{ side: 'offense', dimension: 'callFamily', dimensionLabel: 'call family', label: 'screen' },
      points: [
        { id: 'a', count: 3, known: 12, interval: { lower: 0.1, upper: 0.5 }, plays: claim.plays },
        { id: 'b', count: 0, known: 4, interval: { lower: 0, upper: 0.4 }, plays: [] },
        { id: 'c', count: 0, known: 0, interval: null, plays: [] },
      ],
    },
  ],
};

const first: RoundReport = assembleRoundReport(nineOfTwelve());
const report: RoundReport = { ...first, habits: HABITS };

function pageOf(of: RoundReport, names: ReportNames = NAMES): string {
  const film = { chart: () => null, second: () => 65 };
  return roundReportPage({ report: of, names, film, path: [] }, { paper: 'any', policy: "default-src 'none'" }).replace(
    /\s+/g,
    ' ',
  );
}

describe('the habits in a report of the first format', () => {
  it('are no sections at all', () => {
    expect(habitSections(undefined)).toEqual([]);
    expect(roundReportText({ ...first, formatVersion: 1 }, NAMES)).not.toContain('What gives it away');
    expect(pageOf({ ...first, formatVersion: 1 })).not.toMatch(/gives-away|What changed/);
  });
});

describe('the habits as text and Markdown', () => {
  it('stand after what stands out, a topic without claims in one line', () => {
    const text = roundReportText(report, NAMES);
    expect(text).toContain(`
What gives it away
------------------
Offense, tells: rests on 80 plays of 2 games.
  - motion jet: run 2 of 40 with it, 12 of 40 without

Sequences and answers
---------------------
Offense, tells: nothing follows anything.

What changed
------------
Nothing of this player is charted.

Film to watch`);
    expect(text.indexOf('what stands out')).toBeLessThan(text.indexOf('What gives it away'));
  });

  it('say where a claim was seen in one game only, and let a lead say it itself', () => {
    const once = { ...HABITS, givesAway: [topic([{ ...claim, games: 1 }])] };
    expect(roundReportText({ ...report, habits: once }, NAMES)).toContain('12 of 40 without; in one game only');
    const lead = { ...HABITS, givesAway: [topic([{ ...claim, games: 1, status: 'unproven' }])] };
    expect(roundReportText({ ...report, habits: lead }, NAMES)).not.toContain('in one game only');
  });

  it('let no label of a clan open a tag, a link or a table', () => {
    const hostile = { ...HABITS, givesAway: [topic([{ ...claim, words: HOSTILE }], HOSTILE)] };
    const markdown = roundReportMarkdown({ ...report, habits: hostile }, NAMES);
    expect(markdown).not.toMatch(/<script|(?<!\\)\]\(|(?<!\\)\|x/);
  });
});

describe('the habits on the page', () => {
  const page = pageOf(report);

  it('have their sections between what stands out and the situations, and stand in the contents', () => {
    const titles = [...page.matchAll(/<h2>([^<]+)</g)].map(([, title]) => title);
    expect(titles.slice(0, 5)).toEqual([
      'What stands out from the field',
      'What gives it away',
      'Sequences and answers',
      'What changed',
      'Offense',
    ]);
    for (const id of ['gives-away', 'sequences', 'changed']) expect(page).toContain(`href="#${id}"`);
  });

  it('lead from the counts that are meant, not from longer ones that end alike, to their plays', () => {
    const meant = { ...claim, words: 'motion jet: run 12 of 40 without it, 2 of 40 with it' };
    const cited = pageOf({ ...report, habits: { ...HABITS, givesAway: [topic([meant])] } });
    expect(cited).toMatch(/run 12 of 40 without it, <a class="counts" href="#plays-\d+" ?>2 of 40</);
    expect(cited).toContain('run with motion jet, offense');
  });

  it('lead nowhere where there is no play, and say what is not known', () => {
    const none = { ...claim, words: 'run 0 of 40', count: 0, plays: [] };
    expect(pageOf({ ...report, habits: { ...HABITS, givesAway: [topic([none])] } })).toContain('run <b>0 of 40</b>');
    expect(page).toContain('<td>not known</td>');
  });

  it('draw shares from event to event, events by their names where the reader may know them', () => {
    expect(page).toContain('Offense: call family from event to event');
    for (const event of ['Spring Cup, 2 games', 'an event you may not see, 1 game', 'outside events, 1 game']) {
      expect(page).toContain(`<th scope="row">${event}</th>`);
    }
  });

  it('hold no markup from outside, and no id twice', () => {
    const attacked = pageOf(
      {
        ...report,
        habits: {
          ...HABITS,
          givesAway: [topic([{ ...claim, words: `${HOSTILE} 2 of 40`, label: HOSTILE }], HOSTILE)],
          overEvents: HABITS.overEvents.map((share) => ({ ...share, label: HOSTILE, dimensionLabel: HOSTILE })),
        },
      },
      { ...NAMES, event: () => HOSTILE },
    );
    expect(attacked).not.toMatch(/<script|href="javascript/);
    expect(attacked).toContain('&lt;script&gt;');
    const ids = [...attacked.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('of a player without plays are honest', () => {
    const empty = assembleRoundReport({ ...reportInput([], []), habits: habitsInput([]) });
    expect(pageOf(empty)).toMatch(/<h2>What gives it away<\/h2> <p>Nothing of this player is charted\.<\/p>/);
  });
});
