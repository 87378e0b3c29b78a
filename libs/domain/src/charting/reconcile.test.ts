import fc from 'fast-check';
import { WHOLE_FILM, type FilmScope } from './film-scope.js';
import type { ChartedPlay, PlayValue } from './play-columns.js';
import { PLAY_FIELDS, PLAY_TYPES, type PlayFieldName } from './play-fields.js';
import { reconcileCharts, type ChartOfGame, type ReconciledPlay, type Reconciliation } from './reconcile.js';
import { numberReconciled } from './reconcile-numbers.js';
import { placeOf } from './reconcile-scope.js';

type Cells = Partial<Record<PlayFieldName, PlayValue>>;

function aPlay(order: number, cells: Cells = {}, offenseIsHome = true): ChartedPlay {
  const known: Cells = { playType: PLAY_TYPES.indexOf('scrimmage'), ...cells };
  const values = PLAY_FIELDS.map((field) => known[field.name] ?? null);
  return { playNumber: order, orderInGame: order, offenseIsHome, values };
}

function aChart(chartId: string, plays: readonly ChartedPlay[], rest: Partial<ChartOfGame> = {}): ChartOfGame {
  return { chartId, filmScope: WHOLE_FILM, chartedAt: null, plays, ...rest };
}

const scope = (part: Partial<FilmScope>): FilmScope => ({ ...WHOLE_FILM, ...part });

function value(play: ReconciledPlay | undefined, field: PlayFieldName): PlayValue | undefined {
  return play?.values[placeOf(field)];
}

function origin({ charts, plays }: Reconciliation, at: number, field: PlayFieldName): string | undefined {
  return charts[plays[at]?.from[placeOf(field)] ?? -1];
}

describe('reconciling the charts of a game', () => {
  it('fills what the wide chart left open from the narrow one, and says where each value came from', () => {
    const wide = aChart('wide', [aPlay(1, { down: 1, formation: 3 }), aPlay(2, { down: 2, coverage: 200 })]);
    const narrow = aChart('narrow', [aPlay(2, { down: 2, coverage: 201, formation: 9 })], {
      filmScope: scope({ fields: ['coverage'] }),
      chartedAt: '2025-01-01T00:00:00Z',
    });
    const found = reconcileCharts([narrow, wide]);
    expect(found.charts).toEqual(['wide', 'narrow']);
    expect(found.plays.map((play) => value(play, 'coverage'))).toEqual([null, 201]);
    expect(origin(found, 1, 'coverage')).toBe('narrow');
    expect(origin(found, 1, 'down')).toBe('wide');
    // Outside the fields that the narrow chart looked for.
    expect(value(found.plays[1], 'formation')).toBeNull();
    expect(found.plays[1]?.disputed[placeOf('coverage')]).toBe(true);
    expect(found.plays[1]?.members).toEqual([2, 2]);
  });

  it('lets the newest of equally wide charts have the last word, where it says something', () => {
    const old = aChart('a', [aPlay(1, { down: 1, formation: 3 })], { chartedAt: '2025-02-01T00:00:00Z' });
    const fresh = aChart('b', [aPlay(1, { down: 1, formation: 4 })], { chartedAt: '2025-03-01T00:00:00Z' });
    const undated = aChart('c', [aPlay(1, { formation: 5, shell: 70 })]);
    const found = reconcileCharts([fresh, undated, old]);
    expect(found.charts).toEqual(['c', 'a', 'b']);
    expect(value(found.plays[0], 'formation')).toBe(4);
    expect(value(found.plays[0], 'shell')).toBe(70);
  });

  it('counts a chart only inside its scope', () => {
    const wide = aChart('wide', [aPlay(1, { down: 1 }), aPlay(2, { down: 3, formation: 3 })]);
    const thirds = aChart('thirds', [aPlay(1, { down: 1, formation: 8 }), aPlay(2, { down: 3, formation: 4 })], {
      filmScope: scope({ downs: [3] }),
    });
    const found = reconcileCharts([wide, thirds]);
    expect(found.plays.map((play) => value(play, 'formation'))).toEqual([null, 4]);
    expect(found.plays[0]?.members).toEqual([1, null]);
    expect(found.filmScope).toEqual(WHOLE_FILM);
  });

  it('keeps a snap that only one chart has', () => {
    const one = aChart('one', [aPlay(1, { down: 1 }), aPlay(3, { down: 3 })]);
    const other = aChart('other', [aPlay(1, { down: 1 }), aPlay(2, { down: 2 }), aPlay(3, { down: 3 })]);
    const found = reconcileCharts([one, other]);
    expect(found.plays.map(({ orderInGame }) => orderInGame)).toEqual([1, 2, 3]);
    expect(found.plays[1]?.members).toEqual([null, 2]);
  });

  it('recognises the snaps of a chart that missed one and numbered on', () => {
    const situations: Cells[] = [
      { down: 1, distance: 10, yardsToGoal: 75 },
      { down: 2, distance: 4, yardsToGoal: 69 },
      { down: 1, distance: 10, yardsToGoal: 60 },
      { down: 2, distance: 10, yardsToGoal: 60 },
      { down: 3, distance: 2, yardsToGoal: 52 },
    ];
    const full = aChart(
      'full',
      situations.map((cells, at) => aPlay(at + 1, cells)),
    );
    const missed = situations.filter((_, at) => at !== 1);
    const short = aChart(
      'short',
      missed.map((cells, at) => aPlay(at + 1, { ...cells, shell: 70 + at })),
      { chartedAt: '2025-01-01T00:00:00Z' },
    );
    const found = reconcileCharts([full, short]);
    expect(found.plays.map(({ members }) => members)).toEqual([
      [1, 1],
      [2, null],
      [3, 2],
      [4, 3],
      [5, 4],
    ]);
    expect(found.plays.map((play) => value(play, 'shell'))).toEqual([70, null, 71, 72, 73]);
  });

  it('makes room for a snap between two that follow each other', () => {
    const base = aChart('base', [aPlay(1, { down: 1, yardsToGoal: 75 }), aPlay(2, { down: 3, yardsToGoal: 60 })]);
    const more = aChart(
      'more',
      [
        aPlay(1, { down: 1, yardsToGoal: 75 }),
        aPlay(2, { down: 2, yardsToGoal: 68 }),
        aPlay(3, { down: 3, yardsToGoal: 60 }),
      ],
      { chartedAt: '2025-01-01T00:00:00Z' },
    );
    const found = reconcileCharts([base, more]);
    expect(found.plays.map(({ orderInGame }) => orderInGame)).toEqual([1, 2, 3]);
    expect(found.plays.map(({ members }) => members)).toEqual([
      [1, 1],
      [null, 2],
      [2, 3],
    ]);
  });

  it('never gives a down to a play that has none', () => {
    const one = aChart('one', [aPlay(1, { down: 4 })]);
    const other = aChart('other', [aPlay(1, { playType: PLAY_TYPES.indexOf('kickoff') })], {
      chartedAt: '2025-01-01T00:00:00Z',
    });
    for (const { values } of reconcileCharts([one, other]).plays) {
      if (values[placeOf('playType')] === PLAY_TYPES.indexOf('kickoff')) expect(values[placeOf('down')]).toBeNull();
    }
  });

  const anyChart = fc
    .record({
      plays: fc.array(
        fc.record({
          gap: fc.integer({ min: 1, max: 2 }),
          home: fc.boolean(),
          down: fc.option(fc.integer({ min: 1, max: 4 })),
          distance: fc.option(fc.integer({ min: 1, max: 15 })),
          formation: fc.option(fc.integer({ min: 1, max: 9 })),
        }),
        { maxLength: 12 },
      ),
      filmScope: fc.constantFrom(
        WHOLE_FILM,
        scope({ downs: [3] }),
        scope({ offense: 'home' }),
        scope({ fields: ['formation'] }),
      ),
      chartedAt: fc.constantFrom(null, '2025-01-01T00:00:00Z', '2025-02-01T00:00:00Z'),
    })
    .map(({ plays, ...rest }) => {
      let order = 0;
      return {
        ...rest,
        plays: plays.map(({ gap, home, ...cells }) => aPlay((order += gap), cells, home)),
      };
    });
  const anyCharts = fc
    .array(anyChart, { minLength: 1, maxLength: 4 })
    .map((charts) => charts.map((chart, at) => ({ chartId: `chart-${at}`, ...chart })));

  it('does not depend on the order in which the charts come', () => {
    fc.assert(
      fc.property(anyCharts, (charts) => {
        expect(reconcileCharts([...charts].reverse())).toEqual(reconcileCharts(charts));
      }),
    );
  });

  it('invents nothing, loses no snap inside a scope, and counts none twice', () => {
    fc.assert(
      fc.property(anyCharts, (charts) => {
        const { charts: ids, plays } = reconcileCharts(charts);
        const byId = new Map(charts.map((chart) => [chart.chartId, chart]));
        const seen = new Set<string>();
        let last = 0;
        for (const play of plays) {
          expect(play.orderInGame).toBeGreaterThan(last);
          last = play.orderInGame;
          play.values.forEach((found, field) => {
            const chart = play.from[field] ?? -1;
            const id = ids[chart] ?? '';
            const member = byId.get(id)?.plays.find(({ playNumber }) => playNumber === play.members[chart]);
            expect(found).toEqual(chart < 0 ? null : member?.values[field]);
          });
          play.members.forEach((number, chart) => {
            if (number === null) return;
            expect(seen.has(`${chart} ${number}`)).toBe(false);
            seen.add(`${chart} ${number}`);
          });
        }
        const whole = charts.filter(({ filmScope }) => filmScope === WHOLE_FILM);
        const covered = whole.reduce((sum, chart) => sum + chart.plays.length, 0);
        expect(seen.size).toBeGreaterThanOrEqual(covered);
      }),
    );
  });

  it('of one chart is that chart', () => {
    fc.assert(
      fc.property(anyChart, (chart) => {
        const { plays } = reconcileCharts([{ chartId: 'only', ...chart, filmScope: WHOLE_FILM }]);
        expect(plays.map(({ orderInGame, offenseIsHome, values }) => ({ orderInGame, offenseIsHome, values }))).toEqual(
          chart.plays.map(({ orderInGame, offenseIsHome, values }) => ({ orderInGame, offenseIsHome, values })),
        );
      }),
    );
  });
});

describe('numbers of reconciled snaps', () => {
  const one = aChart('one', [aPlay(1, { down: 1 }), aPlay(3, { down: 3 })]);
  const two = aChart('two', [aPlay(1, { down: 1 }), aPlay(3, { down: 3 })]);
  const three = aChart('three', [aPlay(1, { down: 1 }), aPlay(2, { down: 2 }), aPlay(3, { down: 3 })]);

  it('stay when a snap is put between, and the new one gets a number of its own', () => {
    const first = numberReconciled(reconcileCharts([one, two]), [], 0);
    expect(first).toEqual({ numbers: [1, 2], lastNumber: 2 });
    const before = [
      { playNumber: 1, members: [{ chartId: 'one', playNumber: 1 }] },
      { playNumber: 2, members: [{ chartId: 'two', playNumber: 3 }] },
    ];
    expect(numberReconciled(reconcileCharts([one, two, three]), before, 2)).toEqual({
      numbers: [1, 3, 2],
      lastNumber: 3,
    });
  });

  it('are never given again', () => {
    expect(numberReconciled(reconcileCharts([one]), [], 7).numbers).toEqual([8, 9]);
  });
});
