import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import { intervalAround } from './interval-around.js';
import type { Interval } from '../statistics/interval.js';
import { Evidence } from '../tendencies/evidence.js';
import type { AnswerModel } from './answer-model.js';
import type { AnswerLevel } from './levels.js';
import type { FittedOutcome } from './fitted-outcome.js';
import { pooledMeans } from './pooled-means.js';

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
  const met = sidesMet(model, points, places);
  const means = met.map(({ beyond, plays }) => beyond / plays);
  const pooled = pooledMeans(
    means,
    met.map(({ plays }) => plays),
    points.variances.residual,
  );
  const estimateOf = (at: number): number => pooled[at]?.estimate ?? 0;
  const named = [...met.keys()]
    .sort((one, other) => (held ? 1 : -1) * (estimateOf(one) - estimateOf(other)) || one - other)
    .slice(0, most);
  const playsOf = playsOfSides(model, places, new Set(named.map((at) => met[at]?.side ?? -1)));
  return named.map((at): GameMet => {
    const plays = playsOf.get(met[at]?.side ?? -1) ?? [];
    const first = plays[0] ?? 0;
    const estimate = estimateOf(at);
    return {
      chartIndex: facts.plays.chartIndex[first] ?? -1,
      offense: coded.offense[first] ?? -1,
      defense: coded.defense[first] ?? -1,
      plays: plays.length,
      beyond: estimate,
      interval: intervalAround(estimate, pooled[at]?.standardDeviation ?? 0, confidence),
      rawBeyond: means[at] ?? 0,
      ...successesOf(model, plays),
      answers: answersIn(model, plays),
      evidence: new Evidence(facts.plays, Int32Array.from(plays), () => true),
    };
  });
}

/** A side of a game that met some plays, with what they gave beyond expectation in all. */
interface SideMet {
  readonly side: number;
  plays: number;
  beyond: number;
}

/** In the order in which they met the first of the plays. */
function sidesMet(model: AnswerModel, points: FittedOutcome, places: Int32Array): readonly SideMet[] {
  const { pointsAdded, coded } = model;
  const numbers = new Int32Array(coded.gameSides).fill(-1);
  const sides: SideMet[] = [];
  for (const play of places) {
    if ((pointsAdded[play] ?? UNKNOWN_POINTS) === UNKNOWN_POINTS) continue;
    const side = coded.gameSide[play] ?? 0;
    const beyond = beyondExpected(points, pointsAdded, play);
    const known = sides[numbers[side] ?? -1];
    if (known === undefined) {
      numbers[side] = sides.length;
      sides.push({ side, plays: 1, beyond });
    } else {
      known.plays += 1;
      known.beyond += beyond;
    }
  }
  return sides;
}

function playsOfSides(
  { pointsAdded, coded }: AnswerModel,
  places: Int32Array,
  sides: ReadonlySet<number>,
): ReadonlyMap<number, readonly number[]> {
  const found = new Map([...sides].map((side): [number, number[]] => [side, []]));
  for (const play of places) {
    if ((pointsAdded[play] ?? UNKNOWN_POINTS) !== UNKNOWN_POINTS) found.get(coded.gameSide[play] ?? 0)?.push(play);
  }
  return found;
}

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
