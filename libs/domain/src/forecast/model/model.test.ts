import fc from 'fast-check';
import { seededRandom } from '../../statistics/seeded-random.js';
import { fitBlend } from './blend.js';
import { historyFeatures } from '../features/history-features.js';
import { designFor, planDesign } from '../logistic/design.js';
import { fitLogistic, scoreByLogistic, scoreColumns } from '../logistic/fit-logistic.js';
import { minimise } from '../logistic/minimise.js';
import { nestedShares } from '../nested/nested-shares.js';
import { boostTrees, scoreByTrees } from '../trees/boosted-trees.js';
import type { FeatureColumn } from '../features/feature-column.js';

const NOTHING_RANDOM = seededRandom(1);
const PLAIN = {
  leaves: 2,
  ridge: 1,
  categoryRidge: 0,
  leastCurvature: 0,
  learningRate: 1,
  playShare: 1,
  featureShare: 1,
};

describe('boosted trees', () => {
  it('give a leaf the value minus gradient over curvature plus ridge (Chen and Guestrin 2016, equation 5)', () => {
    // Four plays, two of each class, told apart by the feature: at log odds 0 each gradient is 0.5, each curvature 0.25.
    const columns: FeatureColumn[] = [{ name: 'x', kind: 'number', values: Float64Array.of(1, 1, 2, 2) }];
    const outcome = Int32Array.of(0, 0, 1, 1);
    const rows = Int32Array.of(0, 1, 2, 3);
    const model = boostTrees(columns, outcome, 2, rows, PLAIN, 1, null, NOTHING_RANDOM);
    const scores = scoreByTrees(model, columns, rows);
    expect([...scores]).toEqual([-1 / 1.5, -1 / 1.5, 1 / 1.5, 1 / 1.5]);
  });

  it('learn what a straight line cannot, and send unknown values where they belong', () => {
    const random = seededRandom(3);
    const x = Float64Array.from({ length: 3000 }, () => (random() < 0.2 ? Number.NaN : random()));
    const y = Float64Array.from({ length: 3000 }, () => random());
    const truth = Float64Array.from(x, (value, play) =>
      Number.isNaN(value) ? 0.9 : value > 0.5 === (y[play] ?? 0) > 0.5 ? 0.8 : 0.2,
    );
    const outcome = Int32Array.from(truth, (p) => (random() < p ? 1 : 0));
    const columns: FeatureColumn[] = [
      { name: 'x', kind: 'number', values: x },
      { name: 'y', kind: 'number', values: y },
    ];
    const rows = Int32Array.from(outcome.keys());
    const settings = { ...PLAIN, leaves: 8, ridge: 5, learningRate: 0.2 };
    const scores = scoreByTrees(boostTrees(columns, outcome, 2, rows, settings, 40, null, random), columns, rows);
    const off = scores.reduce((sum, score, play) => sum + Math.abs(1 / (1 + Math.exp(-score)) - (truth[play] ?? 0)), 0);
    expect(off / 3000).toBeLessThan(0.06);
  });

  it('are cut back to the round that did best on the plays that were watched', () => {
    const random = seededRandom(4);
    const noise: FeatureColumn[] = [
      { name: 'noise', kind: 'number', values: Float64Array.from({ length: 600 }, () => random()) },
    ];
    const outcome = Int32Array.from({ length: 600 }, () => (random() < 0.5 ? 1 : 0));
    const rows = Int32Array.from(outcome.keys());
    const watch = { rows: rows.subarray(300), patience: 5 };
    const model = boostTrees(noise, outcome, 2, rows.slice(0, 300), { ...PLAIN, leaves: 8 }, 100, watch, random);
    expect(model.rounds.length).toBeLessThan(10);
  });

  it('keep several classes apart', () => {
    const kind: FeatureColumn[] = [
      { name: 'kind', kind: 'category', values: Float64Array.from({ length: 90 }, (_, play) => play % 3) },
    ];
    const outcome = Int32Array.from({ length: 90 }, (_, play) => (play % 3 === 2 ? 0 : (play % 3) + 1));
    const rows = Int32Array.from(outcome.keys());
    const model = boostTrees(kind, outcome, 3, rows, { ...PLAIN, leaves: 4 }, 20, null, NOTHING_RANDOM);
    const scores = scoreByTrees(model, kind, rows);
    for (const play of rows) {
      const own = [...scores.subarray(play * 3, play * 3 + 3)];
      expect(own.indexOf(Math.max(...own))).toBe(outcome[play]);
    }
  });
});

it('minimising finds the bottom of the valley of Rosenbrock (1960)', () => {
  const at = Float64Array.of(-1.2, 1);
  minimise(
    ([x = 0, y = 0], gradient) => {
      gradient[0] = -400 * x * (y - x * x) - 2 * (1 - x);
      gradient[1] = 200 * (y - x * x);
      return 100 * (y - x * x) ** 2 + (1 - x) ** 2;
    },
    at,
    1e-14,
    500,
  );
  expect(at[0]).toBeCloseTo(1, 4);
  expect(at[1]).toBeCloseTo(1, 4);
});

it('logistic regression with a vanishing ridge gives the shares of each category', () => {
  const columns: FeatureColumn[] = [
    { name: 'down', kind: 'category', values: Float64Array.from({ length: 100 }, (_, play) => (play < 40 ? 1 : 2)) },
  ];
  const outcome = Int32Array.from({ length: 100 }, (_, play) => (play < 10 || play >= 55 ? 1 : 0));
  const design = designFor(planDesign(columns, [], Int32Array.from(outcome.keys())), columns);
  const { coefficients } = fitLogistic(design, outcome, 2, Int32Array.from(outcome.keys()), 1e-6);
  const score = (play: number): number => {
    let sum = 0;
    for (let at = design.starts[play] ?? 0; at < (design.starts[play + 1] ?? 0); at += 1) {
      sum += (design.weights[at] ?? 0) * (coefficients[design.places[at] ?? 0] ?? 0);
    }
    return 1 / (1 + Math.exp(-sum));
  };
  expect(score(0)).toBeCloseTo(10 / 40, 3);
  expect(score(60)).toBeCloseTo(45 / 60, 3);
});

describe('plays scored by their columns', () => {
  const value = fc.oneof(fc.constant(Number.NaN), fc.integer({ min: 0, max: 40 }));
  const plays = fc.array(fc.tuple(value, value), { minLength: 1, maxLength: 30 });
  const columnsOf = (rows: readonly (readonly [number, number])[]): FeatureColumn[] => [
    { name: 'yards', kind: 'number', values: Float64Array.from(rows, ([yards]) => yards) },
    { name: 'look', kind: 'category', values: Float64Array.from(rows, ([, look]) => look % 4) },
  ];
  const training = columnsOf(Array.from({ length: 60 }, (_, at) => [at % 13, at % 3] as const));
  const plan = planDesign(
    training,
    [{ first: 'yards', second: 'look', ridge: 1 }],
    Int32Array.from({ length: 60 }, (_, at) => at),
  );

  it.each([2, 3])('are scored as the rows of their design are, with %i classes', (classes) => {
    const stride = classes === 2 ? 1 : classes;
    const coefficients = Float64Array.from({ length: plan.width * stride }, (_, at) => Math.sin(at));
    fc.assert(
      fc.property(plays, (rows) => {
        const columns = columnsOf(rows);
        const every = Int32Array.from(rows.keys());
        const byDesign = scoreByLogistic({ classes, coefficients }, designFor(plan, columns), every);
        expect(scoreColumns({ classes, coefficients }, plan, columns)).toEqual(byDesign);
      }),
    );
  });

  it('have in each block weights that add up to 1, and none where a look was never taught', () => {
    fc.assert(
      fc.property(plays, (rows) => {
        const { starts, places, weights } = designFor(plan, columnsOf(rows));
        for (const [play, [, look]] of rows.entries()) {
          // The fourth look is none of the three that were taught.
          const isTaught = Number.isNaN(look) || look % 4 < 3;
          for (const { first, second, base, size } of plan.blocks) {
            let sum = 0;
            for (let at = starts[play] ?? 0; at < (starts[play + 1] ?? 0); at += 1) {
              const place = places[at] ?? 0;
              if (place >= base && place < base + size) sum += weights[at] ?? 0;
            }
            expect(sum).toBeCloseTo([first, second].includes('look') && !isTaught ? 0 : 1, 5);
          }
        }
      }),
    );
  });
});

it('nested shares draw a context towards the one around it, and never look at their own game', () => {
  const facts = {
    game: Int32Array.of(0, 0, 1, 1),
    rows: Int32Array.of(0, 1, 2, 3),
    outcome: Int32Array.of(1, 1, 0, 0),
    classes: 2,
    untilGame: 1,
  };
  const shares = nestedShares(facts, { name: 'down', levels: [Int32Array.of(0, 1, 0, -1)] }, [2]);
  // First game: nothing is known. Second: (1 + 2) of (2 + 2) plays of all were of class 1; the cell saw one of one.
  expect([...shares]).toEqual([0.5, 0.5, 0.5, 0.5, (2 * 0.25) / 3, (1 + 2 * 0.75) / 3, 0.25, 0.75]);
});

describe('histories', () => {
  const facts = {
    game: Int32Array.of(0, 0, 1, 1, 2),
    rows: Int32Array.of(0, 1, 2, 3, 4),
    outcome: Int32Array.of(1, 1, 0, 1, 1),
    classes: 2,
    expected: new Float64Array(10).fill(0.5),
    untilGame: 2,
  };
  const keys = Int32Array.of(0, 0, 0, 0, 0);

  it('count a game only after it is over, and halve with its age', () => {
    const group = { name: 'player', keys, halfLife: 1, prior: 10, span: 'career' } as const;
    const [column] = historyFeatures(facts, [group]);
    expect([...(column?.values ?? [])]).toEqual([0, 0, 1 / 12, 1 / 12, (0.5 * 1 + 0) / (1 + 2 + 10)]);
  });

  it('of the game itself know every play before', () => {
    const group = { name: 'today', keys, halfLife: Infinity, prior: 1, span: 'game' } as const;
    const [column] = historyFeatures(facts, [group]);
    expect([...(column?.values ?? [])]).toEqual([0, 0.5 / 2, 0, -0.5 / 2, 0]);
  });
});

it('a pool prefers the member that knows, and is calibrated on what it was fitted to', () => {
  const random = seededRandom(8);
  const truth = Float64Array.from({ length: 4000 }, () => 0.1 + 0.8 * random());
  const outcome = Int32Array.from(truth, (p) => (random() < p ? 1 : 0));
  const logs = (of: (play: number) => number): Float64Array =>
    Float64Array.from({ length: 8000 }, (_, cell) => {
      const second = of(Math.floor(cell / 2));
      return Math.log(cell % 2 === 1 ? second : 1 - second);
    });
  const knowing = logs((play) => truth[play] ?? 0);
  const guessing = logs((play) => 0.2 + 0.6 * (((play * 7919) % 1000) / 1000));
  const rows = Int32Array.from(outcome.keys());
  const { weights } = fitBlend([{ members: [knowing, guessing], rows }], outcome, 2, [0.5, 0.5]);
  expect(weights[0]).toBeGreaterThan(0.8);
  expect(Math.abs(weights[1] ?? 1)).toBeLessThan(0.25);
});

it('a pool holds to its middle on few plays and moves it on many', () => {
  // A member that says one half of what happens three times in five: the middle is off by log(3 / 2).
  const moved = (plays: number): number => {
    const outcome = Int32Array.from({ length: plays }, (_, play) => (play % 5 < 3 ? 1 : 0));
    const members = [new Float64Array(plays * 2).fill(Math.log(0.5))];
    const rows = Int32Array.from(outcome.keys());
    const { intercepts } = fitBlend([{ members, rows }], outcome, 2, [1]);
    return ((intercepts[1] ?? 0) - (intercepts[0] ?? 0)) / Math.log(3 / 2);
  };
  expect(moved(1000)).toBeLessThan(0.2);
  expect(moved(15_000)).toBeGreaterThan(0.9);
});
