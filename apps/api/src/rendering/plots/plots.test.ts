import { nineOfTwelve } from '#domain/reports/report-sample.js';
import { assembleRoundReport } from '#domain/reports/round-report.js';
import type { CallGrid } from '#domain/reports/round-report-shape.js';
import type { PathStep } from '../report-path.js';
import { callGridPlot } from './call-grid-plot.js';
import { pathAheadPlot } from './path-ahead-plot.js';
import { pathPlot } from './path-plot.js';
import { SHADES, shadeOf } from './shade.js';
import { shareDotsPlot, type ShareDot } from './share-dots-plot.js';
import { shareDriftPlot, type DriftPoint } from './share-drift-plot.js';

const HOSTILE = '</text><script>alert(1)</script>';

const count = (text: string, mark: RegExp): number => text.match(mark)?.length ?? 0;

/** Relative luminance of a grey, `#rrggbb` with three equal parts. WCAG 2.2, "relative luminance". */
function luminance(grey: string): number {
  const part = parseInt(grey.slice(1, 3), 16) / 255;
  return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
}

function contrast(a: string, b: string): number {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

describe('the shades of a grid', () => {
  it('are greys on which their text reads: contrast of 4.5 and more', () => {
    for (const { fill, ink } of SHADES) {
      expect(fill).toMatch(/^#(..)\1\1$/);
      expect(contrast(fill, ink)).toBeGreaterThanOrEqual(4.5);
    }
  });

  it('grow darker and their borders no thinner with the share', () => {
    const steps = [0, 0.1, 0.25, 0.4, 0.6].map((share) => shadeOf(100 * share, 100));
    for (const [at, step] of steps.entries()) {
      const before = steps[at - 1];
      if (before === undefined) continue;
      expect(luminance(step.fill)).toBeLessThan(luminance(before.fill));
      expect(step.border).toBeGreaterThanOrEqual(before.border);
    }
  });

  it('are none below ten plays, whatever the share', () => {
    expect(shadeOf(9, 9)).toMatchObject({ fill: '#ffffff', dashed: true });
    expect(shadeOf(10, 10)).toMatchObject({ fill: '#404040', dashed: false });
  });
});

describe('situations against calls', () => {
  const { callGrid } = assembleRoundReport(nineOfTwelve()).offense;
  const grid: CallGrid = {
    dimension: 'callFamily',
    dimensionLabel: 'call family',
    columns: [
      { valueKey: 'a', label: 'run' },
      { valueKey: 'b', label: HOSTILE },
    ],
    rows: [
      {
        ...{ situation: 'all snaps', label: 'all snaps', snaps: 12, known: 12 },
        cells: [
          { id: '1', count: 7, plays: [] },
          { id: '2', count: 5, plays: [] },
        ],
      },
    ],
  };
  const plot = callGridPlot('grid', 'Offense', grid).text;

  it('has a cell for each pair, with its counts', () => {
    expect(count(plot, /class="cell"/g)).toBe(2);
    expect(plot).toContain('>7 of 12</text');
    expect(plot).toContain('>5 of 12</text');
  });

  it('marks the most frequent of a row in bold', () => {
    expect(plot).toMatch(/font-weight="bold"[^>]*>7 of 12/);
    expect(plot).toMatch(/font-weight="normal"[^>]*>5 of 12/);
  });

  it('is named and described, and holds no markup from outside', () => {
    expect(plot).toMatch(/role="img"\s+aria-labelledby="grid-title"\s+aria-describedby="grid-description"/);
    expect(plot).toContain('Most often, all snaps: run 7 of 12.');
    expect(plot).not.toContain('<script');
  });

  it('is drawn only where a call is known', () => {
    expect(callGrid).toBeUndefined();
    expect(callGridPlot('grid', 'Offense', { ...grid, rows: [] }).text).not.toContain('class="cell"');
  });
});

describe('shares against the field', () => {
  const dot: ShareDot = {
    ...{ label: HOSTILE, count: 6, known: 12, share: 0.5, field: 0.25 },
    interval: { lower: 0, upper: 1 },
  };
  const plot = shareDotsPlot('dots', 'Offense', [dot, { ...dot, field: null }]).text.replace(/\s+/g, ' ');

  // 360 units less 12 on either side: 0 is at 12, a half at 180, all at 348.
  it('puts nothing at the left end, all at the right end and a half in the middle', () => {
    expect(plot).toContain('<circle cx="180"');
    expect(plot).toMatch(/class="interval" x1="12" x2="348"/);
    expect(plot).toMatch(/class="field" d="M96 /);
  });

  it('has a dot and an interval a share, and a diamond where the field is known', () => {
    expect(count(plot, /<circle/g)).toBe(2);
    expect(count(plot, /class="interval"/g)).toBe(2);
    expect(count(plot, /class="field"/g)).toBe(1);
  });

  it('escapes labels and says so where there is nothing to draw', () => {
    expect(plot).not.toContain('<script');
    expect(shareDotsPlot('dots', 'Offense', []).text).toContain('No share rests on enough plays.');
  });
});

describe('shares from event to event', () => {
  const point: DriftPoint = { label: HOSTILE, count: 6, known: 12, interval: { lower: 0, upper: 1 } };
  const few: DriftPoint = { ...point, count: 4, known: 4 };
  const none: DriftPoint = { ...point, count: 0, known: 0, interval: null };
  const plot = shareDriftPlot('drift', 'Offense', [{ label: HOSTILE, points: [point, few, none] }]).text.replace(
    /\s+/g,
    ' ',
  );

  // 360 units less 12 on either side: 0 is at 12, a half at 180, all at 348. Rows of 32 below a head of 22: 44 and 76.
  it('puts a half in the middle and all at the right end, and joins them from the top down', () => {
    expect(plot).toContain('<circle cx="180" cy="44"');
    expect(plot).toContain('<circle cx="348" cy="76"');
    expect(plot).toContain('d="M180 44L348 76"');
    expect(plot).toMatch(/class="interval" x1="12" x2="348" y1="44"/);
  });

  it('tells few plays by form, and draws nothing where nothing is known', () => {
    expect(count(plot, /<circle/g)).toBe(2);
    expect(count(plot, /<circle[^>]*fill="#000000"/g)).toBe(1);
    expect(count(plot, /stroke-dasharray/g)).toBe(1);
    expect(count(plot, /class="event"/g)).toBe(3);
    expect(plot).toContain('>not known</text');
  });

  it('uses greys only, so that grey print loses nothing', () => {
    const colours = [...plot.matchAll(/(?:fill|stroke)="(#[0-9a-f]+)"/g)].map(([, colour]) => colour);
    expect(colours.length).toBeGreaterThan(5);
    for (const colour of colours) expect(colour).toMatch(/^#(..)\1\1$/);
  });

  it('is named and described, and holds no markup from outside', () => {
    expect(plot).toMatch(/role="img" aria-labelledby="drift-title" aria-describedby="drift-description"/);
    expect(plot).toContain('6 of 12');
    expect(plot).not.toContain('<script');
    expect(shareDriftPlot('drift', 'Offense', []).text).toContain('No share is known in more than one event.');
  });
});

describe('the path so far', () => {
  const step: PathStep = {
    ...{ stage: 'group', opponent: 'Quiet Heron', outcome: 'won', score: '10-7' },
    ...{ forfeited: false, playedOn: '2031-05-01' },
  };

  it('has a mark a step, told apart by form', () => {
    const outcomes = ['won', 'lost', 'drawn', 'to be played', 'not noted'] as const;
    const plot = pathPlot(
      'path',
      'Quiet Heron',
      outcomes.map((outcome) => ({ ...step, outcome })),
    ).text;
    expect(count(plot, /class="step"/g)).toBe(5);
    expect(count(plot, /<circle[^>]*fill="#000000"/g)).toBe(1);
    expect(count(plot, /stroke-dasharray/g)).toBe(1);
    expect(plot).toContain('group: beat Quiet Heron 10-7');
  });

  it('escapes handles and says so where nothing is known', () => {
    expect(pathPlot('path', 'x', [{ ...step, opponent: HOSTILE }]).text).not.toContain('<script');
    expect(pathPlot('path', 'x', []).text).toContain('No match of this player in this event is known.');
  });
});

describe('the way ahead', () => {
  const rows = [
    { round: 'semifinal', plays: 0.5, opponents: [{ name: HOSTILE, probability: 0.5 }] },
    { round: 'final', plays: 0.2, opponents: [{ name: 'Quiet Heron', probability: 0.001 }] },
  ];
  const drawn = pathAheadPlot('ahead', 'The way ahead', rows).text;

  it('draws a bar for everybody who may be met, as long as the probability', () => {
    expect(count(drawn, /<g class="round"/g)).toBe(2);
    expect(count(drawn, /fill="#000000"/g)).toBe(2);
    expect(drawn).toContain('width="80"');
  });

  it('says the same in words, and nothing that may happen as nothing', () => {
    expect(drawn).toContain('final, played with 20 %: Quiet Heron under 1 %');
    expect(drawn).not.toContain('<script>');
  });
});
