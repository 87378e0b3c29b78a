import fc from 'fast-check';
import { chartAgreement } from './agreement.js';
import { WHOLE_FILM } from './film-scope.js';
import type { ChartedPlay, PlayValue } from './play-columns.js';
import { PLAY_FIELDS, PLAY_TYPES, type PlayFieldName } from './play-fields.js';
import type { ChartOfGame } from './reconcile.js';

type Cells = Partial<Record<PlayFieldName, PlayValue>>;
const SCRIMMAGE = PLAY_TYPES.indexOf('scrimmage');
const asItIs = (termId: number): number => termId;

function aPlay(order: number, cells: Cells, offenseIsHome = true): ChartedPlay {
  const known: Cells = { playType: SCRIMMAGE, ...cells };
  return {
    playNumber: order,
    orderInGame: order,
    offenseIsHome,
    values: PLAY_FIELDS.map(({ name }) => known[name] ?? null),
  };
}

function aChart(chartId: string, plays: readonly ChartedPlay[], rest: Partial<ChartOfGame> = {}): ChartOfGame {
  return { chartId, filmScope: WHOLE_FILM, chartedAt: null, plays, ...rest };
}

const inField = (found: ReturnType<typeof chartAgreement>, field: string) =>
  found.fields.find((agreement) => agreement.field === field);

describe('the agreement of two charts', () => {
  // Cohen (1960), Educ. Psychol. Meas. 20, 37-46, Table 1: 200 ratings in three categories, shares given to two decimals;
  // kappa is printed as .492.
  const COHEN = [
    [0.44, 0.07, 0.09],
    [0.05, 0.2, 0.05],
    [0.01, 0.03, 0.06],
  ];

  it('is that of the published table', () => {
    const ratings = COHEN.flatMap((row, one) =>
      row.flatMap((share, other) => Array.from({ length: Math.round(share * 200) }, () => [one, other] as const)),
    );
    const chart = (rater: 0 | 1): ChartOfGame =>
      aChart(
        String(rater),
        ratings.map((rating, at) => aPlay(at + 1, { coverage: 100 + rating[rater] })),
      );
    const coverage = inField(chartAgreement(chart(0), chart(1), asItIs, 0.95), 'coverage');
    expect(coverage).toMatchObject({ plays: 200, same: 140, noKappa: null });
    expect(Math.abs((coverage?.kappa?.kappa ?? 0) - 0.492)).toBeLessThanOrEqual(0.0005);
  });

  it('rests on plays that both have and fields that both know, and lists where they differ', () => {
    const first = aChart('first', [
      aPlay(1, { down: 1, distance: 10, coverage: 5 }),
      aPlay(2, { down: 2, distance: 6, coverage: 6, ledTo: [3, 4] }),
      aPlay(3, { down: 3, distance: 1 }),
    ]);
    const second = aChart('second', [
      aPlay(1, { down: 1, distance: 10, coverage: 5 }),
      aPlay(2, { down: 2, distance: 7, coverage: 9, ledTo: [4, 3] }),
    ]);
    const found = chartAgreement(first, second, asItIs, 0.9);
    expect(found).toMatchObject({ plays: 2, onlyInFirst: [3], onlyInSecond: [] });
    expect(inField(found, 'coverage')).toMatchObject({ plays: 2, same: 1 });
    // The order of what a snap led to means nothing.
    expect(inField(found, 'ledTo')).toMatchObject({ plays: 1, same: 1, kappa: null, noKappa: 'one value' });
    expect(inField(found, 'formation')).toBeUndefined();
    expect(found.differing).toEqual([
      {
        orderInGame: 2,
        firstPlayNumber: 2,
        secondPlayNumber: 2,
        fields: [
          { field: 'distance', first: 6, second: 7 },
          { field: 'coverage', first: 6, second: 9 },
        ],
      },
    ]);
  });

  it('counts a term as what it stands for', () => {
    const charts = [77, 5].map((coverage, at) => aChart(`chart-${at}`, [aPlay(1, { coverage })]));
    const [first, second] = charts;
    if (first === undefined || second === undefined) throw new Error('two charts');
    expect(chartAgreement(first, second, (id) => (id === 77 ? 5 : id), 0.9).differing).toEqual([]);
    expect(chartAgreement(first, second, asItIs, 0.9).differing).toHaveLength(1);
  });

  it('compares nothing outside the scope of either', () => {
    const first = aChart('first', [aPlay(1, { down: 1, coverage: 5, shell: 1 }), aPlay(2, { down: 3, coverage: 5 })]);
    const second = aChart(
      'second',
      [aPlay(1, { down: 1, coverage: 6 }), aPlay(2, { down: 3, coverage: 6, shell: 2 })],
      {
        filmScope: { ...WHOLE_FILM, downs: [3], fields: ['coverage'] },
      },
    );
    const found = chartAgreement(first, second, asItIs, 0.9);
    expect(found).toMatchObject({ plays: 1, onlyInFirst: [] });
    expect(found.fields.map(({ field }) => field)).toEqual(['offense', 'coverage']);
  });

  it('weighs a yard less than ten', () => {
    const spots = [20, 40, 60, 80];
    const off = (yards: number): number => {
      const first = aChart(
        'first',
        spots.map((spot, at) => aPlay(at + 1, { snapSecond: at * 40, yardsGained: spot })),
      );
      const second = aChart(
        'second',
        spots.map((spot, at) => aPlay(at + 1, { snapSecond: at * 40, yardsGained: spot + (at === 0 ? yards : 0) })),
      );
      return inField(chartAgreement(first, second, asItIs, 0.9), 'yardsGained')?.kappa?.kappa ?? 0;
    };
    expect(off(1)).toBeGreaterThan(off(10));
  });

  it('gives no kappa where every play has a value of its own', () => {
    const chart = (id: string, by: number): ChartOfGame =>
      aChart(
        id,
        Array.from({ length: 150 }, (_, at) => aPlay(at + 1, { snapSecond: at * 30 + by })),
      );
    expect(inField(chartAgreement(chart('one', 0), chart('other', 1), asItIs, 0.9), 'snapSecond')).toEqual({
      field: 'snapSecond',
      plays: 150,
      same: 0,
      kappa: null,
      noKappa: 'too many values',
    });
  });

  it('of a chart with itself is full, and does not depend on which comes first', () => {
    const anyPlays = fc.array(
      fc.record({ down: fc.integer({ min: 1, max: 4 }), coverage: fc.option(fc.integer({ min: 1, max: 5 })) }),
      { minLength: 1, maxLength: 20 },
    );
    fc.assert(
      fc.property(anyPlays, anyPlays, (one, other) => {
        const [a, b] = [one, other].map((plays, chart) =>
          aChart(
            String(chart),
            plays.map((cells, at) => aPlay(at + 1, cells)),
          ),
        );
        if (a === undefined || b === undefined) throw new Error('two charts');
        for (const { plays, same } of chartAgreement(a, a, asItIs, 0.9).fields) expect(same).toBe(plays);
        const [there, back] = [chartAgreement(a, b, asItIs, 0.9), chartAgreement(b, a, asItIs, 0.9)];
        expect(back.plays).toBe(there.plays);
        if (a.plays.length === b.plays.length) {
          expect(back.fields.map(({ field, same }) => [field, same])).toEqual(
            there.fields.map(({ field, same }) => [field, same]),
          );
        }
      }),
    );
  });
});
