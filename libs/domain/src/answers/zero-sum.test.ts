import fc from 'fast-check';
import { seededRandom } from '../statistics/seeded-random.js';
import type { Payoffs } from './matrix-game.js';
import { valueByLibrary } from './testing/solved-by-highs.js';
import { dominatedRows, equilibrium, gainsByColumn, leaning, worstColumn } from './zero-sum.js';

const near = (found: readonly number[], wanted: readonly number[]): void => {
  expect(found).toHaveLength(wanted.length);
  found.forEach((share, place) => {
    expect(Math.abs(share - (wanted[place] ?? NaN))).toBeLessThan(1e-8);
  });
};

// Chvátal (1983), Linear Programming: Morra p. 230, the 8 x 4 game p. 234; values and mixes also by R's lpSolve.
const MORRA: Payoffs = [
  [0, 2, -3, 0],
  [-2, 0, 0, 3],
  [3, 0, 0, -4],
  [0, -3, 4, 0],
];
// Ferguson, Game Theory (UCLA), part II; from memory that the games stand there, the numbers by R's lpSolve.
const BLOTTO: Payoffs = [
  [4, 0, 2, 1],
  [0, 4, 1, 2],
  [1, -1, 3, 0],
  [-1, 1, 0, 3],
  [-2, -2, 2, 2],
];

/** Value, and the mixes where there is only one; a mix of several is judged by what it makes sure of. */
const GAMES: readonly { name: string; payoffs: Payoffs; value: number; rows?: number[]; columns?: number[] }[] = [
  {
    name: 'odd or even (Ferguson)',
    payoffs: [
      [-2, 3],
      [3, -4],
    ],
    value: 1 / 12,
    rows: [7 / 12, 5 / 12],
    columns: [7 / 12, 5 / 12],
  },
  {
    name: 'two by three with an unused column (Sedgewick & Wayne, Algorithms 6.5)',
    payoffs: [
      [30, -10, 20],
      [10, 20, -20],
    ],
    value: 20 / 7,
    rows: [4 / 7, 3 / 7],
    columns: [0, 4 / 7, 3 / 7],
  },
  { name: 'two-finger Morra (Chvátal p. 230)', payoffs: MORRA, value: 0 },
  {
    name: 'eight by four (Chvátal p. 234)',
    payoffs: [...MORRA, [0, 0, -3, 3], [-2, 2, 0, 0], [3, -3, 0, 0], [0, 0, 4, -4]],
    value: 0.04040404040404,
    rows: [0, 56 / 99, 40 / 99, 0, 0, 2 / 99, 0, 1 / 99],
    columns: [28 / 99, 30 / 99, 21 / 99, 20 / 99],
  },
  { name: 'Colonel Blotto', payoffs: BLOTTO, value: 14 / 9, rows: [4 / 9, 4 / 9, 0, 0, 1 / 9] },
  {
    name: 'a saddle point',
    payoffs: [
      [4, 1, -3],
      [3, 2, 5],
      [0, 1, 6],
    ],
    value: 2,
    rows: [0, 1, 0],
  },
  {
    name: 'a saddle point (SAS/OR lpsole03)',
    payoffs: [
      [-5, 3, 1, 8],
      [5, 5, 4, 6],
      [-4, 6, 0, 5],
    ],
    value: 4,
    rows: [0, 1, 0],
  },
  {
    name: 'dominance',
    payoffs: [
      [2, 0, 4],
      [1, 2, 3],
      [4, 1, 2],
    ],
    value: 1.75,
    rows: [0, 0.75, 0.25],
    columns: [0.25, 0.75, 0],
  },
  {
    name: 'a diagonal',
    payoffs: [
      [1, 0, 0],
      [0, 2, 0],
      [0, 0, 3],
    ],
    value: 6 / 11,
    rows: [6 / 11, 3 / 11, 2 / 11],
  },
  {
    name: 'a magic square',
    payoffs: [
      [16, 3, 2, 13],
      [5, 10, 11, 8],
      [9, 6, 7, 12],
      [4, 15, 14, 1],
    ],
    value: 8.5,
  },
  {
    name: 'Mendelsohn',
    payoffs: [
      [0, -1, 2],
      [1, 0, -1],
      [-2, 1, 0],
    ],
    value: 0,
    rows: [0.25, 0.5, 0.25],
  },
  {
    name: 'two by four',
    payoffs: [
      [2, 3, 1, 5],
      [4, 1, 6, 0],
    ],
    value: 17 / 7,
    rows: [5 / 7, 2 / 7],
    columns: [0, 5 / 7, 2 / 7, 0],
  },
  {
    name: 'penalty kicks (Palacios-Huerta 2003)',
    payoffs: [
      [58.3, 94.97],
      [92.91, 69.92],
    ],
    value: 79.5730254777,
    rows: [0.3853503185, 1 - 0.3853503185],
    columns: [0.4198793161, 1 - 0.4198793161],
  },
  {
    name: 'run or pass (Winston, Mathletics)',
    payoffs: [
      [-5, 5],
      [5, -5],
    ],
    value: 0,
    rows: [0.5, 0.5],
  },
  {
    name: 'a better run is called less (Winston)',
    payoffs: [
      [-5, 10],
      [5, -5],
    ],
    value: 1,
    rows: [0.4, 0.6],
    columns: [0.6, 0.4],
  },
  {
    name: 'run or pass (Bluman, Probability Demystified)',
    payoffs: [
      [2, 5],
      [10, -6],
    ],
    value: 62 / 19,
    rows: [16 / 19, 3 / 19],
    columns: [11 / 19, 8 / 19],
  },
  {
    name: "O'Neill (1987)",
    payoffs: [
      [0, 1, 1, 0],
      [1, 0, 1, 0],
      [1, 1, 0, 0],
      [0, 0, 0, 1],
    ],
    value: 0.4,
    rows: [0.2, 0.2, 0.2, 0.4],
    columns: [0.2, 0.2, 0.2, 0.4],
  },
  { name: 'one by one', payoffs: [[-1.5]], value: -1.5, rows: [1], columns: [1] },
];

const payoffs = fc.tuple(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 7 })).chain(([rows, columns]) =>
  fc.array(fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: columns, maxLength: columns }), {
    minLength: rows,
    maxLength: rows,
  }),
);

describe('a zero-sum game', () => {
  it.each(GAMES)('is solved as published: $name', ({ payoffs: game, value, rows, columns }) => {
    const found = equilibrium(game);
    expect(Math.abs(found.value - value)).toBeLessThan(1e-8);
    expect(found.gap).toBeLessThan(1e-9);
    if (rows !== undefined) near(found.rows, rows);
    if (columns !== undefined) near(found.columns, columns);
    expect(worstColumn(game, found.rows)).toBeCloseTo(value, 8);
  });

  it('leaves no gap, gains what is added to every payoff, and turns round with the players', () => {
    fc.assert(
      fc.property(payoffs, fc.double({ min: -5, max: 5, noNaN: true }), (game, add) => {
        const found = equilibrium(game);
        expect(found.gap).toBeLessThan(1e-9);
        const raised = equilibrium(game.map((row) => row.map((gain) => gain + add)));
        expect(raised.value).toBeCloseTo(found.value + add, 8);
        const turned = equilibrium((game[0] ?? []).map((_, column) => game.map((row) => -(row[column] ?? 0))));
        expect(turned.value).toBeCloseTo(-found.value, 8);
      }),
      { numRuns: 60 },
    );
  });

  it('never plays a dominated row', () => {
    fc.assert(
      fc.property(payoffs, (game) => {
        const { rows } = equilibrium(game);
        const worse = [...game, (game[0] ?? []).map((gain) => gain - 0.1)];
        const dominated = dominatedRows(worse, equilibrium(worse).rows);
        expect(dominated.map(({ row }) => row)).toContain(game.length);
        const all = equilibrium(worse);
        for (const { row, by, margin } of dominated) {
          expect(all.rows[row] ?? 1).toBeLessThan(1e-9);
          const beaten = gainsByColumn(worse, by).map((gain, column) => gain - (worse[row]?.[column] ?? 0));
          expect(Math.min(...beaten)).toBeCloseTo(margin, 7);
        }
        expect(worstColumn(game, rows)).toBeCloseTo(all.value, 7);
      }),
      { numRuns: 60 },
    );
  });

  it('names a mix that dominates where no single row does', () => {
    const game = [
      [4, 0],
      [0, 4],
      [1, 1],
    ];
    const [found, ...others] = dominatedRows(game, equilibrium(game).rows);
    expect(others).toEqual([]);
    expect(found).toMatchObject({ row: 2 });
    near(found?.by ?? [], [0.5, 0.5, 0]);
    expect(found?.margin).toBeCloseTo(1, 8);
  });

  it('leans from the equilibrium to the best response, gaining more and making sure of less', () => {
    fc.assert(
      fc.property(payoffs, (game) => {
        const shares = (game[0] ?? []).map(
          (_, column) => (column + 1) / (((game[0]?.length ?? 0) * ((game[0]?.length ?? 0) + 1)) / 2),
        );
        const gain = (rows: readonly number[]): number =>
          gainsByColumn(game, rows).reduce((sum, of, column) => sum + of * (shares[column] ?? 0), 0);
        const stops = [0, 0.3, 0.6, 1].map((lean) => leaning(game, shares, lean));
        stops.slice(1).forEach((rows, at) => {
          expect(gain(rows)).toBeGreaterThanOrEqual(gain(stops[at] ?? []) - 1e-7);
          expect(worstColumn(game, rows)).toBeLessThanOrEqual(worstColumn(game, stops[at] ?? []) + 1e-7);
        });
        const best = Math.max(
          ...game.map((row) => row.reduce((sum, of, column) => sum + of * (shares[column] ?? 0), 0)),
        );
        expect(gain(stops[3] ?? [])).toBeCloseTo(best, 7);
      }),
      { numRuns: 40 },
    );
  });

  it.each([
    ['no row', [], 'stats.invalid_shape'],
    ['no column', [[]], 'stats.invalid_shape'],
    ['rows of two lengths', [[1, 2], [1]], 'stats.invalid_shape'],
    ['a gain that is no number', [[1, NaN]], 'stats.invalid_number'],
  ])('refuses %s', (_, game, code) => {
    expect(() => equilibrium(game)).toThrow(expect.objectContaining({ code }));
  });

  // HiGHS, https://highs.dev, by its WebAssembly package: the same value of games with equal rows and columns, dominated
  // ones, saddle points and whole numbers, in which many vertices are level.
  it('is worth what a library for linear programmes says', async () => {
    const byLibrary = await valueByLibrary();
    const random = seededRandom(83);
    const below = (count: number): number => Math.floor(count * random());
    for (let round = 0; round < 150; round += 1) {
      const [rows, columns] = [1 + below(16), 1 + below(16)];
      const gain = [() => random() - 0.5, () => below(4), () => below(2)][round % 3] ?? random;
      const game = Array.from({ length: rows }, () => Array.from({ length: columns }, gain));
      if (rows > 2) game[rows - 1] = [...(game[0] ?? [])];
      const found = equilibrium(game);
      expect(found.gap).toBeLessThan(1e-12);
      expect(Math.abs(found.value - byLibrary(game))).toBeLessThan(1e-8);
    }
  });

  it('is refused, not answered, where rows differ by less than the solver can tell', () => {
    // Rows and columns a billionth apart: what is left open is ten times what is allowed.
    const nearlyAlike = [
      [1.99999999998, 1],
      [2, 1],
      [1.999999998, 1.00000001],
      [2, 1.000000000001],
      [1.9999999998, 1],
    ];
    expect(() => equilibrium(nearlyAlike)).toThrow(expect.objectContaining({ code: 'stats.no_convergence' }));
  });

  it('is solved however many vertices are level, and in any unit', () => {
    const random = seededRandom(84);
    for (let round = 0; round < 3_000; round += 1) {
      const size = 2 + Math.floor(15 * random());
      const unit = 10 ** (Math.floor(13 * random()) - 6);
      const game = Array.from({ length: size }, () =>
        Array.from({ length: size }, () => unit * Math.floor(3 * random())),
      );
      const { gap, rows, columns } = equilibrium(game);
      expect(gap).toBeLessThan(1e-12 * Math.max(1, unit));
      for (const shares of [rows, columns]) expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    }
  });
});
