import fc from 'fast-check';
import { fitMixedModel, solveMixedModel, type MixedModel } from './mixed-model.js';
import type { MixedModelInput, RandomFactor } from './mixed-model-input.js';
import { seededRandom } from './seeded-random.js';
import { DYESTUFF, DYESTUFF_2, PASTES, PENICILLIN } from './testing/mixed-model-data.js';

/** One observation a record. */
function observations(values: readonly number[], ...factors: readonly (readonly number[])[]): MixedModelInput {
  return {
    counts: new Float64Array(values.length).fill(1),
    sums: Float64Array.from(values),
    withinSquares: 0,
    factors: factors.map((of) => ({ levels: Math.max(...of) + 1, of: Int32Array.from(of) })),
  };
}

/** Observations of the same levels as one record. */
function summed({ factors, sums }: MixedModelInput): MixedModelInput {
  const records = new Map<string, { levels: number[]; values: number[] }>();
  sums.forEach((value, at) => {
    const levels = factors.map(({ of }) => of[at] ?? -1);
    const record = records.get(levels.join()) ?? { levels, values: [] };
    records.set(levels.join(), record);
    record.values.push(value);
  });
  const all = [...records.values()];
  const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
  return {
    factors: factors.map(({ levels }, place): RandomFactor => ({
      levels,
      of: Int32Array.from(all, (record) => record.levels[place] ?? -1),
    })),
    counts: Float64Array.from(all, ({ values }) => values.length),
    sums: Float64Array.from(all, ({ values }) => total(values)),
    withinSquares: total(
      all.map(({ values }) => total(values.map((value) => (value - total(values) / values.length) ** 2))),
    ),
  };
}

const batches = (values: readonly number[], each: number): number[] => values.map((_, at) => Math.floor(at / each));
const effects = ({ solved }: MixedModel, factor: number, levels: number): number[] =>
  Array.from({ length: levels }, (_, level) => solved.effect(factor, level));

const PLATES = batches(PENICILLIN, 6);
const SAMPLES = PENICILLIN.map((_, at) => at % 6);
const KEPT = PENICILLIN.flatMap((_, at) =>
  (at + 1) % 5 !== 0 && !(PLATES[at] === 2 && SAMPLES[at] !== 0) ? [at] : [],
);
const pick = (values: readonly number[]): number[] => KEPT.map((at) => values[at] ?? 0);

/**
 * lme4 1.1-31 under R 4.2.2, numbers and script: testing/mixed-model-reference.R. The data are those of Davies &
 * Goldsmith (1972) and Box & Tiao (1973). Its optimiser stops where the criterion is flat: on Penicillin it leaves the
 * closed form, below, by 6e-5 of a variance, and that is the tolerance here.
 */
const REFERENCES = [
  {
    name: 'Dyestuff, one factor',
    input: observations(DYESTUFF, batches(DYESTUFF, 5)),
    variances: [1764.05000643],
    residual: 2451.24999861,
    criterion: 319.654276842,
    mean: 1527.5,
    standardError: 19.3834121788,
    first: [-17.606851367],
  },
  {
    name: 'Dyestuff2, whose batches do not differ',
    input: observations(DYESTUFF_2, batches(DYESTUFF_2, 5)),
    variances: [0],
    residual: 13.8063096276,
    criterion: 161.828277812,
    mean: 5.6656,
    standardError: 0.678388031233,
    first: [0],
  },
  {
    name: 'Penicillin, crossed',
    input: observations(PENICILLIN, PLATES, SAMPLES),
    variances: [0.716905140877, 3.731131842673],
    residual: 0.302414956256,
    criterion: 330.860589,
    mean: 22.9722222222,
    standardError: 0.808595361421,
    first: [0.804546906, 2.1870584018],
  },
  {
    name: 'Penicillin with rows left out, crossed and unbalanced',
    input: observations(pick(PENICILLIN), pick(PLATES), pick(SAMPLES)),
    variances: [0.721938540065, 3.915273259386],
    residual: 0.296313079315,
    criterion: 269.21298537,
    mean: 22.9661641586,
    standardError: 0.827968399804,
    first: [0.957318602, 2.2349466279],
  },
  {
    name: 'Pastes, nested',
    input: observations(PASTES, batches(PASTES, 2), batches(PASTES, 6)),
    variances: [8.433667928404, 1.657307960981],
    residual: 0.677999948267,
    criterion: 246.990745853,
    mean: 60.0533333333,
    standardError: 0.676870046254,
    first: [1.774687288, 0.8006439938],
  },
];

describe('a mixed model', () => {
  it.each(REFERENCES)('agrees with lme4 on $name', ({ input, ...expected }) => {
    const model = fitMixedModel(input);
    const near = (found: number, wanted: number): void => {
      expect(Math.abs(found - wanted)).toBeLessThanOrEqual(1e-4 * Math.max(0.01, Math.abs(wanted)));
    };
    model.variances.forEach((variance, factor) => {
      near(variance, expected.variances[factor] ?? NaN);
      near(model.solved.effect(factor, 0), expected.first[factor] ?? NaN);
    });
    near(model.residualVariance, expected.residual);
    expect(Math.abs(model.criterion - expected.criterion)).toBeLessThan(1e-6);
    near(model.solved.mean, expected.mean);
    const ofMean = model.solved.combination([{ factor: -1, level: 0, weight: 1 }]);
    near(Math.sqrt(ofMean.variance()), expected.standardError);
  });

  // Davies & Goldsmith: analysis of variance of a balanced layout gives the same variances, in closed form.
  it('is the analysis of variance where the layout is balanced', () => {
    const model = fitMixedModel(observations(DYESTUFF, batches(DYESTUFF, 5)));
    const means = Array.from({ length: 6 }, (_, batch) => {
      const own = DYESTUFF.slice(5 * batch, 5 * batch + 5);
      return own.reduce((sum, value) => sum + value, 0) / 5;
    });
    const grand = means.reduce((sum, mean) => sum + mean, 0) / 6;
    const between = (5 * means.reduce((sum, mean) => sum + (mean - grand) ** 2, 0)) / 5;
    const within = DYESTUFF.reduce((sum, value, at) => sum + (value - (means[Math.floor(at / 5)] ?? 0)) ** 2, 0) / 24;
    expect(model.residualVariance).toBeCloseTo(within, 3);
    expect(model.variances[0]).toBeCloseTo((between - within) / 5, 3);

    // Mean squares of the crossed layout by R's anova(lm(diameter ~ plate + sample)).
    const [plates, samples, rest] = [4.603864734, 89.844444444, 0.302415459];
    const crossed = fitMixedModel(observations(PENICILLIN, PLATES, SAMPLES));
    expect(crossed.variances[0]).toBeCloseTo((plates - rest) / 6, 6);
    expect(crossed.variances[1]).toBeCloseTo((samples - rest) / 24, 6);
    expect(crossed.residualVariance).toBeCloseTo(rest, 8);
  });

  it('does not care whether observations are summed by record, or which factor has the most levels', () => {
    const random = seededRandom(5);
    const draw = (levels: number): number => Math.floor(random() * levels);
    const rows = Array.from({ length: 400 }, () => [draw(6), draw(9), draw(4)]);
    const values = rows.map(([one = 0, two = 0, three = 0]) => one * 0.4 - two * 0.3 + three + 3 * random());
    const column = (place: number): number[] => rows.map((row) => row[place] ?? 0);
    const single = observations(values, column(0), column(1), column(2));
    const [each, cells] = [fitMixedModel(single), fitMixedModel(summed(single))];
    const padded = fitMixedModel({
      ...single,
      factors: single.factors.map((factor, place) => (place === 2 ? { ...factor, levels: 40 } : factor)),
    });
    expect(cells.residualVariance).toBeCloseTo(each.residualVariance, 6);
    for (const [factor, levels] of [6, 9, 4].entries()) {
      expect(cells.variances[factor]).toBeCloseTo(each.variances[factor] ?? NaN, 6);
      effects(each, factor, levels).forEach((effect, level) => {
        expect(cells.solved.effect(factor, level)).toBeCloseTo(effect, 6);
      });
    }
    // Levels that nobody has seen say nothing of the variance.
    expect(padded.variances[2]).toBeCloseTo(each.variances[2] ?? NaN, 5);
    const parts = [
      { factor: -1, level: 0, weight: 1 },
      { factor: 0, level: 2, weight: 1 },
      { factor: 2, level: 1, weight: -0.5 },
    ];
    expect(padded.solved.combination(parts).variance()).toBeCloseTo(each.solved.combination(parts).variance(), 6);
  });

  it('gives combinations the posterior of the textbook where there is one factor', () => {
    const { solved } = solveMixedModel(observations(DYESTUFF, batches(DYESTUFF, 5)), [1764.05, 2451.25]);
    // One level of k in a balanced layout: the mean is known to (s + n t) / (k n), the level to t s / (s + n t) of it.
    const [between, within, each, levels] = [1764.05, 2451.25, 5, 6];
    const pooled = (between * within) / (within + each * between);
    const shrink = within / (within + each * between);
    const ofMean = (within + each * between) / (each * levels);
    const level = solved.combination([
      { factor: -1, level: 0, weight: 1 },
      { factor: 0, level: 3, weight: 1 },
    ]);
    expect(level.variance()).toBeCloseTo(pooled + shrink ** 2 * ofMean, 6);
    expect(solved.combination([{ factor: 0, level: -1, weight: 1 }]).variance()).toBeCloseTo(between, 6);
    expect(level.mean).toBeCloseTo(solved.mean + solved.effect(0, 3), 10);
  });

  it('moves with the observations and scales with their unit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        (add, times) => {
          const plain = fitMixedModel(observations(PENICILLIN, PLATES, SAMPLES));
          const other = fitMixedModel(
            observations(
              PENICILLIN.map((value) => times * value + add),
              PLATES,
              SAMPLES,
            ),
          );
          const unit = times ** 2;
          expect(other.residualVariance / unit).toBeCloseTo(plain.residualVariance, 4);
          expect((other.variances[0] ?? 0) / unit).toBeCloseTo(plain.variances[0] ?? 0, 3);
          expect((other.solved.mean - add) / times).toBeCloseTo(plain.solved.mean, 5);
        },
      ),
      { numRuns: 10 },
    );
  });

  it.each([
    ['no record', { ...observations([1], [0]), counts: new Float64Array(0) }, 'stats.invalid_shape'],
    ['no factor', observations([1, 2]), 'stats.invalid_shape'],
    [
      'a level out of range',
      { ...observations([1, 2], [0, 1]), factors: [{ levels: 1, of: Int32Array.of(0, 1) }] },
      'stats.invalid_shape',
    ],
    [
      'a record without observations',
      { ...observations([1, 2], [0, 1]), counts: Float64Array.of(1, 0) },
      'stats.invalid_number',
    ],
    ['a sum that is no number', observations([1, NaN], [0, 1]), 'stats.invalid_number'],
    ['the same value throughout', observations([2, 2, 2], [0, 1, 1]), 'stats.undefined_statistic'],
  ])('refuses %s', (_, input, code) => {
    expect(() => fitMixedModel(input)).toThrow(expect.objectContaining({ code }));
  });
});
