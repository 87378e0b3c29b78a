import { UNKNOWN_NUMBER, type PlayColumns } from '../charting/play-columns.js';
import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import { bracketedRoot } from '../statistics/bracketed-root.js';
import type { FittedOutcome } from './fitted-outcome.js';

/** Up to this many yards to go from second down on is short, and from that many on long. Common practice, no source. */
const [SHORT, LONG] = [3, 7];
/** Short, as usual, long: finer groups are too thin to tell a call's or an answer's part in them. */
export const DISTANCE_GROUPS = 3;

/** The group of each play by yards to go; -1 where down or distance is not known. */
export function distanceGroups(plays: PlayColumns): Int8Array {
  const [downs, distances] = [plays.number('down').values, plays.number('distance').values];
  const groups = new Int8Array(plays.count).fill(-1);
  for (let play = 0; play < groups.length; play += 1) {
    const [down, distance] = [downs[play] ?? UNKNOWN_NUMBER, distances[play] ?? UNKNOWN_NUMBER];
    if (down === UNKNOWN_NUMBER || distance === UNKNOWN_NUMBER) continue;
    groups[play] = down === 1 || (distance > SHORT && distance < LONG) ? 1 : distance <= SHORT ? 0 : 2;
  }
  return groups;
}

/** How far each call, or each answer, gives more or less in a group of situations than it gives everywhere. */
export interface SituationEffects {
  /** Between the groups of one of them, in the square of the outcome's unit; above 0. */
  readonly variance: number;
  readonly groups: number;
  /** Calls or answers x groups: means of the posteriors, each drawn to 0. */
  readonly means: Float64Array;
  /** Of the same, their standard deviations. */
  readonly deviations: Float64Array;
}

/** Of both sides; null where the data do not speak for them. */
export interface EffectsOfBoth {
  readonly calls: SituationEffects | null;
  readonly answers: SituationEffects | null;
}

/**
 * What answers give by group of situations, and then what calls do beside that: a draw that pays on third and long and
 * nowhere else is called there whatever it meets.
 *
 * @param group  - one a play, below `groups`; -1 takes no part
 * @param groups - at least 1
 */
export function effectsOfBoth(
  fitted: FittedOutcome,
  outcome: Float64Array,
  group: Int8Array,
  groups: number,
): EffectsOfBoth {
  const left = leftOver(fitted, outcome, group, groups);
  const { residual } = fitted.variances;
  const answers = situationEffects(sumsBy('answer', left, null), groups, residual);
  return { answers, calls: situationEffects(sumsBy('call', left, answers), groups, residual) };
}

/**
 * Twice the logarithm by which the likelihood has to be larger with a variance than without one: one archive in twenty
 * in which there is none comes that far, since a variance at its end counts for half a degree of freedom.
 *
 * @see Self & Liang (1987), J. Am. Stat. Assoc. 82, 605–610
 */
const LEAST_GAIN = 2.706;

/**
 * What calls or answers give beside situation, call, answer and players, by group of situations: sums of what the fitted
 * model leaves, the own mean of each taken out, and drawn to 0 by the variance that restricted likelihood finds. Call,
 * answer and players are held as they were fitted.
 *
 * @param left - of each call or answer what is left, by group
 * @returns null where the data do not speak for such a variance
 * @see Patterson & Thompson (1971), Biometrika 58, 545–554
 */
function situationEffects(left: GroupSums, groups: number, residual: number): SituationEffects | null {
  const { counts, sums } = left;
  const levels = counts.length / groups;
  const profile = (between: number): Profile => profileAt(between, { counts, sums, levels, groups, residual });
  const none = profile(0);
  if (!(none.slope > 0)) return null;
  let high = residual / 1000;
  while (profile(high).slope > 0) high *= 4;
  const variance = bracketedRoot((between) => profile(between).slope, 0, high, 1e-9 * residual);
  const found = profile(variance);
  if (none.criterion - found.criterion < LEAST_GAIN) return null;
  const [means, deviations] = [new Float64Array(counts.length), new Float64Array(counts.length)];
  for (let cell = 0; cell < counts.length; cell += 1) {
    const count = counts[cell] ?? 0;
    const weight = count === 0 ? 0 : variance / (variance + residual / count);
    const centre = found.centres[Math.floor(cell / groups)] ?? 0;
    means[cell] = count === 0 ? 0 : weight * ((sums[cell] ?? 0) / count - centre);
    deviations[cell] = Math.sqrt(variance * (1 - weight));
  }
  return { variance, groups, means, deviations };
}

interface GroupSums {
  /** Calls or answers x groups. */
  readonly counts: Float64Array;
  readonly sums: Float64Array;
}

/** What the fitted model leaves of all plays. */
interface LeftOver extends GroupSums {
  readonly calls: number;
  readonly answers: number;
  readonly groups: number;
}

/** By call, answer and group: one pass over an archive, whoever asks. */
function leftOver(fitted: FittedOutcome, outcome: Float64Array, group: Int8Array, groups: number): LeftOver {
  const { call, calls, answer, answers } = fitted.coded;
  const [counts, sums] = [new Float64Array(calls * answers * groups), new Float64Array(calls * answers * groups)];
  for (let play = 0; play < outcome.length; play += 1) {
    const value = outcome[play] ?? UNKNOWN_POINTS;
    const [one, other, of] = [call[play] ?? -1, answer[play] ?? -1, group[play] ?? -1];
    if (value === UNKNOWN_POINTS || one < 0 || other < 0 || of < 0) continue;
    const cell = (one * answers + other) * groups + of;
    counts[cell] = (counts[cell] ?? 0) + 1;
    sums[cell] = (sums[cell] ?? 0) + value - fitted.expectedOf(play) - fitted.predicted(play);
  }
  return { counts, sums, calls, answers, groups };
}

/** @param beside - of answers, where they are taken out first */
function sumsBy(whose: 'call' | 'answer', left: LeftOver, beside: SituationEffects | null): GroupSums {
  const { calls, answers, groups } = left;
  const levels = whose === 'call' ? calls : answers;
  const [counts, sums] = [new Float64Array(levels * groups), new Float64Array(levels * groups)];
  for (let call = 0; call < calls; call += 1) {
    for (let answer = 0; answer < answers; answer += 1) {
      for (let group = 0; group < groups; group += 1) {
        const from = (call * answers + answer) * groups + group;
        const to = (whose === 'call' ? call : answer) * groups + group;
        const count = left.counts[from] ?? 0;
        counts[to] = (counts[to] ?? 0) + count;
        const known = count * (beside?.means[answer * groups + group] ?? 0);
        sums[to] = (sums[to] ?? 0) + (left.sums[from] ?? 0) - known;
      }
    }
  }
  return { counts, sums };
}

interface Profile {
  /** Of twice the restricted log-likelihood by the variance, and -2 times that likelihood, constants left out. */
  readonly slope: number;
  readonly criterion: number;
  /** One a call or answer: the mean of its groups. */
  readonly centres: Float64Array;
}

function profileAt(
  between: number,
  { counts, sums, levels, groups, residual }: GroupSums & { levels: number; groups: number; residual: number },
): Profile {
  const centres = new Float64Array(levels);
  let [slope, criterion] = [0, 0];
  for (let level = 0; level < levels; level += 1) {
    const cells = Array.from({ length: groups }, (_, of) => level * groups + of)
      .filter((cell) => (counts[cell] ?? 0) > 0)
      .map((cell) => {
        const count = counts[cell] ?? 1;
        return { mean: (sums[cell] ?? 0) / count, weight: 1 / (between + residual / count) };
      });
    if (cells.length === 0) continue;
    const precision = cells.reduce((sum, { weight }) => sum + weight, 0);
    const centre = cells.reduce((sum, { weight, mean }) => sum + weight * mean, 0) / precision;
    centres[level] = centre;
    criterion += Math.log(precision);
    for (const { weight, mean } of cells) {
      const square = weight * (mean - centre) ** 2;
      slope += weight * (square + weight / precision - 1);
      criterion += square - Math.log(weight);
    }
  }
  return { slope, criterion, centres };
}
