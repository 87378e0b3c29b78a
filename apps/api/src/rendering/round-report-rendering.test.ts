import fc from 'fast-check';
import { nineOfTwelve, reportInput } from '#domain/reports/report-sample.js';
import { assembleRoundReport } from '#domain/reports/round-report.js';
import { escapedMarkdown, markdownAddress } from './escaped-markdown.js';
import { clockWords, oneLine } from './plain-words.js';
import type { ReportNames } from './report-names.js';
import { roundReportMarkdown } from './round-report-markdown.js';
import { roundReportText } from './round-report-text.js';
import { wrapped } from './wrapped.js';

const NAMES: ReportNames = {
  coachingPoint: () => null,
  player: () => 'Quiet Heron',
  event: () => 'Spring Cup',
  game: (gameId) => `the first game (${gameId})`,
  // The video begins ten seconds before the film that was charted.
  video: () => ({ url: 'https://video.example/watch?v=1', offsetSeconds: 10 }),
};

const HOSTILE =
  'x|y`z`<script>alert(1)</script>\n# Won\r\n\u001b[31m[a](javascript:alert(1)) ![i](http://t.example/p.png)\u202e';

const aReport = assembleRoundReport(nineOfTwelve());

describe('a round report as text', () => {
  const text = roundReportText(aReport, NAMES);

  // By hand, from the sample's comment: 15 snaps, the call known on 12, 9 passes (75 %) and 3 runs; the field 61 of 100.
  // Wilson at 90 %: 51 to 90 % (derived in the test of the claim's words). Successes: the 9 passes, so 9 of 12, and 9 of
  // 9 for the pass, 25 points above the player's own 75 %; 9 x 5 + 3 x 1 = 48 yards in 12 plays. Runs: 3 results, below
  // the 5 that strong and weak need. Film: the first snap is at second 65 and the video starts 10 s earlier, so 75 = 1:15, the others 30 s apart. Each shows two
  // leads and a strong call of weight 2, so 6, then 6 x (0.5 x 0.7)^k = 2.1, 0.74, 0.257, 0.09: the fifth is below 0.25.
  it('reads well', () => {
    expect(text).toBe(GOLDEN);
  });

  it('has no line over 100 columns but the address of a video', () => {
    const long = roundReportText(aReport, { ...NAMES, player: () => 'long '.repeat(60) + 'q'.repeat(240) });
    for (const line of long.split('\n')) {
      if (!line.includes('https://')) expect(line.length).toBeLessThanOrEqual(100);
    }
  });

  it('prints a hostile handle as one harmless line', () => {
    const hostile = roundReportText(aReport, { ...NAMES, player: () => HOSTILE });
    expect(hostile).not.toMatch(/[\u001b\u202e\r]/);
    expect(hostile.split('\n').filter((line) => line.startsWith('# Won'))).toEqual([]);
  });

  it('says so where a reader may not know a name or where nothing is charted', () => {
    const nobody: ReportNames = {
      ...{ player: () => null, event: () => null, game: () => null, video: () => null },
      coachingPoint: () => null,
    };
    const empty = roundReportText(assembleRoundReport(reportInput([], [])), nobody);
    expect(empty).toContain('Scouting report: name withheld');
    expect(empty).toContain('No snap of this side is charted: nothing is known, which is not zero.');
    expect(roundReportText(aReport, nobody)).toContain('a game you may not see');
  });

  it('cautions about aids during play and about other people’s footage', () => {
    expect(text).toMatch(/own rules decide whether aids like this may be used during play/);
    expect(text.replace(/\n/g, ' ')).toMatch(/used under the event's rules and the law of the place/);
  });
});

describe('a round report as Markdown', () => {
  it('has a heading, sections, a table and links to the video', () => {
    const markdown = roundReportMarkdown(aReport, NAMES);
    expect(markdown).toMatch(/^# Scouting report: Quiet Heron\n\n## Who and when\n/);
    expect(markdown).toContain('| Situation | Snaps | Most used |\n| --- | --- | --- |\n| 1st and 10 | 15 |');
    expect(markdown).toContain(' [video](https://video.example/watch?v=1#t=75)');
  });

  it('keeps every row of its table to three cells and every handle to text', () => {
    const markdown = roundReportMarkdown(aReport, {
      ...NAMES,
      player: () => HOSTILE,
      event: () => HOSTILE,
      game: () => HOSTILE,
      video: () => ({ url: 'javascript:alert(1)', offsetSeconds: 0 }),
    });
    const rows = markdown.split('\n').filter((line) => line.startsWith('|'));
    for (const row of rows) expect(row.match(/(?<!\\)\|/g)).toHaveLength(4);
    expect(markdown).not.toMatch(/<script|(?<!\\)\]\(|^# Won|http:\/\//m);
  });

  it.each([
    ['a|b', 'a\\|b'],
    ['`code`', '\\`code\\`'],
    ['<b>&amp;', '&lt;b&gt;&amp;amp;'],
    ['- item', '\\- item'],
    ['1. item', '1\\. item'],
    ['two\nlines', 'two lines'],
    ['https://x.example', 'https&#58;//x.example'],
    ['@someone', '\\@someone'],
    ['3rd and 7-10', '3rd and 7-10'],
  ])('writes %j as %j', (raw, escaped) => {
    expect(escapedMarkdown(raw)).toBe(escaped);
  });

  it('leaves no character of any text to Markdown or HTML', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const escaped = escapedMarkdown(text);
        expect(escaped).not.toMatch(/[<>\n\r]/);
        expect(escaped.replace(/\\[^a-z0-9 ]/gi, '')).not.toMatch(/[`|[\]*_]/);
      }),
    );
  });

  it('links to web addresses only, and lets none end its link early', () => {
    expect(markdownAddress('javascript:alert(1)')).toBeNull();
    expect(markdownAddress('no address')).toBeNull();
    expect(markdownAddress('https://v.example/a_(b)?c=<d>')).toBe('https://v.example/a%5f%28b%29?c=%3Cd%3E');
  });
});

describe('plain words', () => {
  it.each([
    [0, '0:00'],
    [65, '1:05'],
    [3729, '1:02:09'],
  ])('second %d is %s', (second, words) => {
    expect(clockWords(second)).toBe(words);
  });

  it('one line has no control characters and no runs of spaces', () => {
    expect(oneLine('a\u0000\n b\u200b  c')).toBe('a b c');
  });

  it('wrapping keeps every line within its width and every letter', () => {
    fc.assert(
      fc.property(
        fc.stringMatching(/^[a-z]{0,12}( [a-z]{1,12}){0,8}$/),
        fc.integer({ min: 1, max: 20 }),
        (text, width) => {
          const lines = wrapped(text, width);
          for (const line of lines) expect(line.length).toBeLessThanOrEqual(width);
          expect(lines.join('').replaceAll(' ', '')).toBe(text.replaceAll(' ', ''));
        },
      ),
    );
  });

  it('wrapping cuts a word that is longer than a line and loses no letter', () => {
    expect(wrapped('ab cdefghij k', 4)).toEqual(['ab', 'cdef', 'ghij', 'k']);
  });
});

const GOLDEN = `Scouting report: Quiet Heron
============================

Who and when
------------
Event: Spring Cup; round: semifinal; made on 2031-05-02.
1 game charted (1 group), the newest of 2031-04-01. Snaps that count: 15 on offense, 0 on defense.
Ranges are 90 % intervals of the counts as they stand. Below ten plays there are counts only.
"Field" is everybody else in view.

First of all: what stands out from the field
--------------------------------------------
Offense, leads that this sample does not prove:
  - all snaps, run or pass called: pass more often, 9 of 12 (75 %, 51-90 %), field 61 %; known on 12
    of 15
  - 1st and 10, run or pass called: pass more often, 9 of 12 (75 %, 51-90 %), field 61 %; known on
    12 of 15

Film to watch, in this order
----------------------------
 1. 1:15 of the first game (game-0), play 1: stands out: pass (run or pass called), offense, all
    snaps
    https://video.example/watch?v=1#t=75
 2. 1:45 of the first game (game-0), play 2: stands out: pass (run or pass called), offense, all
    snaps
    https://video.example/watch?v=1#t=105
 3. 2:15 of the first game (game-0), play 3: stands out: pass (run or pass called), offense, all
    snaps
    https://video.example/watch?v=1#t=135
 4. 2:45 of the first game (game-0), play 4: stands out: pass (run or pass called), offense, all
    snaps
    https://video.example/watch?v=1#t=165

Offense: most used, all snaps
-----------------------------
  - pass (run or pass called): 9 of 12 (75 %, 51-90 %), field 61 %; known on 12 of 15

Offense: by situation
---------------------
Situation   Snaps  Most used
----------  -----  --------------------------------------------------------------------------------
1st and 10  15     run or pass called: pass, 9 of 12 (75 %, 51-90 %), field 61 %; known on 12 of 15
                   success: 9 of 12 (75 %, 51-90 %); 4.0 yards a play on 12

Offense: strong and weak
------------------------
Strong:
  - pass (run or pass called): 9 of 9; 5.0 yards a play on 9
Weak: nothing beyond the ordinary on this sample.

Defense
-------
No snap of this side is charted: nothing is known, which is not zero.

What this film could not tell
-----------------------------
Offense, 15 snaps of 1 game. Never charted: call family; concept; formation; backfield; motion;
direction against strength; target depth; tempo; personnel.

What this rests on
------------------
  - the first game (game-0): revision 1 of its chart, rules 3.1
Established leaves room for chance: of a hundred simulated reports on players who do nothing but
what everybody does, thirty to forty established something, mostly in one line or two. The more
hangs on a line, the more its plays are worth a look.

Before you use this
-------------------
The event's own rules decide whether aids like this may be used during play.
Footage and data of other people are used under the event's rules and the law of the place: keep
this report to those who may see it.
`;
