import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import { intervalAround } from './interval-around.js';
import type { Interval } from '../statistics/interval.js';
import { bracketedRoot } from '../statistics/bracketed-root.js';
import { Evidence } from '../tendencies/evidence.js';
import type { AnswerModel } from './answer-model.js';
import type { AnswerLevel } from './levels.js';
import type { FittedOutcome } from './fitted-outcome.js';

/** One side of one game that met a call, against what was to be expected of it. */
export interface GameMet {
  /** Place of the chart in the field's batch. */
  readonly chartIndex: number;
  /** Players' numbers in the field. */
  readonly offense: number;
  readonly defense: number;
  readonly plays: number;
  /**
   * Expected points added a play above (below: held) what the same call of the same offense gets from the field in the
   * same situations, drawn towards the other games that met it.
   */
  readonly beyond: number;
  readonly interval: Interval;
  /** The same without being drawn together: one lucky snap leads here. */
  readonly rawBeyond: number;
  readonly successes: number;
  readonly trials: number;
  /** Successes that were to be expected of these plays. */
  readonly expectedSuccesses: number;
  /** What the defense did, most used first; what was not seen is left out. */
  readonly answers: readonly { readonly level: AnswerLevel; readonly plays: number }[];
  readonly evidence: Evidence;
}

/**
 * Every game that met some plays, those that held them furthest below expectation first. What is expected of a play is
 * the mean of its situation, its call and its offense, whoever defends; a game's mean beyond that is drawn towards that of
 * all games by partial pooling, so that few plays cannot lead by luck.
 *
 * @param places     - ascending places of plays in the field's batch, for instance all of one concept
 * @param confidence - of the intervals, in (0, 1)
 * @param most       - at most so many
 * @param held       - false puts those first that it went best in: what has beaten a defense
 * @throws DomainError `stats.invalid_probability`
 * @see pooledMeans; Morris (1983), J. Am. Stat. Assoc. 78, 47–55
 */
export function gamesMet(
  model: AnswerModel,
  places: Int32Array,
  confidence: number,
  held = true,
  most = Number.POSITIVE_INFINITY,
): GameMet[] {
  const { points, coded, facts } = model;
  if (points === null) return [];
  const bySide = new Map<number, number[]>();
  for (const play of places) {
    if ((model.pointsAdded[play] ?? UNKNOWN_POINTS) === UNKNOWN_POINTS) continue;
    const side = coded.gameSide[play] ?? 0;
    const own = bySide.get(side) ?? [];
    bySide.set(side, own);
    own.push(play);
  }
  const raw = [...bySide.values()].map((plays) => ({
    plays,
    beyond: plays.map((play) => beyondExpected(points, model.pointsAdded, play)),
  }));
  const pooled = pooledMeans(
    raw.map(({ beyond }) => beyond),
    points.variances.residual,
  );
  return raw
    .map(({ plays, beyond }, at) => ({ plays, beyond, pooled: pooled[at] ?? UNPOOLED }))
    .sort(
      (one, other) =>
        (held ? 1 : -1) * (one.pooled.estimate - other.pooled.estimate) || (one.plays[0] ?? 0) - (other.plays[0] ?? 0),
    )
    .slice(0, most)
    .map(({ plays, beyond, pooled: { estimate, standardDeviation } }): GameMet => {
      const first = plays[0] ?? 0;
      return {
        chartIndex: facts.plays.chartIndex[first] ?? -1,
        offense: coded.offense[first] ?? -1,
        defense: coded.defense[first] ?? -1,
        plays: plays.length,
        beyond: estimate,
        interval: intervalAround(estimate, standardDeviation, confidence),
        rawBeyond: beyond.reduce((sum, value) => sum + value, 0) / plays.length,
        ...successesOf(model, plays),
        answers: answersIn(model, plays),
        evidence: new Evidence(facts.plays, Int32Array.from(plays), () => true),
      };
    });
}

const UNPOOLED: Pooled = { estimate: 0, standardDeviation: 0 };

/** What a play gave beyond its situation, its call and its offense. */
export function beyondExpected(outcome: FittedOutcome, values: Float64Array, play: number): number {
  const { call, offense } = outcome.coded;
  return (
    (values[play] ?? 0) -
    outcome.expectedOf(play) -
    outcome.mean -
    outcome.callEffect(call[play] ?? -1) -
    outcome.offenseEffect(offense[play] ?? -1)
  );
}

export interface Pooled {
  readonly estimate: number;
  readonly standardDeviation: number;
}

/**
 * Means of groups of plays, drawn towards each other as far as they are alike. The spread of plays is taken as known, from
 * the whole archive: groups of one play each could not tell it from the spread of groups. A variance between groups of
 * exactly 0 would put all of them level, and is what likelihood alone often says of a few plays; so it is kept off 0.
 *
 * @param groups   - values of each group's plays, at least one a group
 * @param residual - variance of a play's value, above 0
 * @see Patterson & Thompson (1971), Biometrika 58, 545–554 (restricted likelihood); Chung, Rabe-Hesketh, Dorie, Gelman &
 *   Liu (2013), Psychometrika 78, 685–709 (kept off 0)
 */
export function pooledMeans(groups: readonly (readonly number[])[], residual: number): Pooled[] {
  const means = groups.map((values) => values.reduce((sum, value) => sum + value, 0) / values.length);
  const errors = groups.map(({ length }) => residual / length);
  if (groups.length < 3) {
    return means.map((estimate, group) => ({ estimate, standardDeviation: Math.sqrt(errors[group] ?? residual) }));
  }
  // Plain loops: a frequent call of a large archive was met in thousands of games.
  const profile = (between: number): { mean: number; precision: number; slope: number } => {
    let [precision, weighted] = [0, 0];
    for (let group = 0; group < errors.length; group += 1) {
      const weight = 1 / (between + (errors[group] ?? residual));
      precision += weight;
      weighted += weight * (means[group] ?? 0);
    }
    const mean = weighted / precision;
    let slope = 1 / between;
    for (let group = 0; group < errors.length; group += 1) {
      const weight = 1 / (between + (errors[group] ?? residual));
      slope += weight ** 2 * (((means[group] ?? 0) - mean) ** 2 + 1 / precision) - weight;
    }
    return { mean, precision, slope };
  };
  // From far below any spread that matters to where the slope has turned, which it does from three groups on.
  const low = residual * SMALLEST_BETWEEN;
  let high = residual;
  while (profile(high).slope > 0) high *= 4;
  const between = bracketedRoot((variance) => profile(variance).slope, low, high, low);
  const { mean, precision } = profile(between);
  return means.map((own, group) => {
    const error = errors[group] ?? residual;
    const weight = between / (between + error);
    return {
      estimate: mean + weight * (own - mean),
      // The mean that a group is drawn to is not known exactly either.
      standardDeviation: Math.sqrt(weight * error + (1 - weight) ** 2 / precision),
    };
  });
}

const SMALLEST_BETWEEN = 1e-6;

function successesOf(
  { succeeded, success }: AnswerModel,
  plays: readonly number[],
): Pick<GameMet, 'successes' | 'trials' | 'expectedSuccesses'> {
  let [successes, trials, expected] = [0, 0, 0];
  for (const play of plays) {
    const outcome = succeeded[play] ?? UNKNOWN_POINTS;
    if (outcome === UNKNOWN_POINTS) continue;
    trials += 1;
    successes += outcome;
    expected += success === null ? 0 : outcome - beyondExpected(success, succeeded, play);
  }
  return { successes, trials, expectedSuccesses: expected };
}

function answersIn({ answers }: AnswerModel, plays: readonly number[]): GameMet['answers'] {
  const counts = new Map<number, number>();
  for (const play of plays) {
    const level = answers.codes[play] ?? 0;
    counts.set(level, (counts.get(level) ?? 0) + 1);
  }
  return [...counts]
    .flatMap(([place, count]) => {
      const level = answers.levels[place];
      return level === undefined || level.detail === 'not seen' ? [] : [{ level, plays: count }];
    })
    .sort((one, other) => other.plays - one.plays);
}
