import { drawNormals } from '../statistics/draw-gamma.js';
import { seededRandom } from '../statistics/seeded-random.js';
import type { CallOption } from './options.js';
import type { FittedOutcome, WeightedCell } from './fitted-outcome.js';
import type { MixGame } from './call-mix.js';
import { PosteriorDraws } from './posterior-draws.js';
import type { EffectsOfBoth } from './situation-effects.js';

const DRAWS = 400;

/** What a call of ours gives against one level of theirs, less the mean of the situation, and the same draw by draw. */
interface Meeting {
  readonly mean: number;
  readonly draws: Float64Array;
}

/** Calls of ours whose meetings are kept; several menus' worth. */
const MOST_KEPT = 64;

/**
 * Payoffs of a fitted outcome. What a call of ours gives against each level of theirs is worked out when first asked for
 * and kept: situations and opponents differ in how often levels are called, and a payoff is the mean over levels.
 */
export class PayoffTable {
  /** By whose calls theirs are and by our call; then by their level. */
  readonly #kept = new Map<string, Meeting[]>();
  readonly #draws: PosteriorDraws;

  readonly #normals = { calls: new Map<number, Float64Array>(), answers: new Map<number, Float64Array>() };

  /**
   * @param seed        - of the posterior draws
   * @param bySituation - what calls and answers give more in one group of situations than in another
   */
  constructor(
    private readonly outcome: FittedOutcome,
    private readonly seed: number,
    private readonly bySituation: EffectsOfBoth = { calls: null, answers: null },
  ) {
    this.#draws = new PosteriorDraws(outcome, DRAWS, seed);
  }

  /**
   * The game between our calls and theirs, from our view.
   *
   * @param theirSide  - whose calls theirs are: the offense's, and ours answer them, or the defense's
   * @param theirAlpha - one a call of theirs, each > 0
   * @param groups     - shares of the situation's plays that are of each group; the same everywhere when left out
   */
  game(
    theirSide: 'offense' | 'defense',
    ours: readonly CallOption[],
    theirs: readonly CallOption[],
    theirAlpha: readonly number[],
    groups: readonly number[] = [],
  ): MixGame {
    const sign = theirSide === 'offense' ? -1 : 1;
    const [ourKind, theirKind] =
      theirSide === 'offense' ? (['answers', 'calls'] as const) : (['calls', 'answers'] as const);
    const theirsHere = theirs.map((their) => this.#here(theirKind, their, groups));
    const meetings = ours.map((our) => {
      const byLevel = this.#keptOf(theirSide, our);
      const ourHere = this.#here(ourKind, our, groups);
      return theirs.map((their, column) => {
        const draws = new Float64Array(DRAWS);
        let mean = 0;
        for (const here of [ourHere, theirsHere[column] ?? null]) {
          if (here !== null) mean += addTimes(draws, sign, here);
        }
        for (const { level, weight } of their.levels) {
          mean += addTimes(draws, sign * weight, this.#meeting(byLevel, theirSide, our, level));
        }
        return { mean, draws };
      });
    });
    return {
      payoffs: meetings.map((row) => row.map(({ mean }) => mean)),
      draws: meetings.map((row) => row.map(({ draws }) => draws)),
      theirAlpha,
    };
  }

  #keptOf(theirSide: 'offense' | 'defense', our: CallOption): Meeting[] {
    const key = `${theirSide} ${keyOf(our)}`;
    const kept = this.#kept.get(key) ?? [];
    if (this.#kept.size >= MOST_KEPT && !this.#kept.has(key)) this.#kept.clear();
    this.#kept.set(key, kept);
    return kept;
  }

  #meeting(kept: Meeting[], theirSide: 'offense' | 'defense', our: CallOption, level: number): Meeting {
    const known = kept[level];
    if (known !== undefined) return known;
    const their = { levels: [{ level, weight: 1 }] };
    const found = this.outcome.combination(theirSide === 'offense' ? cellsOf(their, our) : cellsOf(our, their));
    const made = { mean: found.mean, draws: this.#draws.of(found) };
    kept[level] = made;
    return made;
  }

  /** What a call or answer gives more where plays are of these groups; null where that is told apart nowhere. */
  #here(kind: keyof EffectsOfBoth, { levels }: CallOption, groups: readonly number[]): Meeting | null {
    const effects = this.bySituation[kind];
    if (effects === null) return null;
    const draws = new Float64Array(DRAWS);
    let mean = 0;
    for (const { level, weight } of levels) {
      for (const [group, share] of groups.entries()) {
        if (share === 0) continue;
        const cell = level * effects.groups + group;
        const own = weight * share * (effects.means[cell] ?? 0);
        const deviation = weight * share * (effects.deviations[cell] ?? 0);
        const normals = this.#normalsOf(kind, cell);
        mean += own;
        for (let draw = 0; draw < DRAWS; draw += 1)
          draws[draw] = (draws[draw] ?? 0) + own + deviation * (normals[draw] ?? 0);
      }
    }
    return { mean, draws };
  }

  /** The same for every option that the cell is part of, so that what they share is drawn alike. */
  #normalsOf(kind: keyof EffectsOfBoth, cell: number): Float64Array {
    const kept = this.#normals[kind].get(cell);
    if (kept !== undefined) return kept;
    const apart = kind === 'calls' ? 2 ** 29 : 0;
    const random = seededRandom((this.seed % 2 ** 20) * 2 ** 31 + 2 ** 30 + apart + cell);
    const normals = drawNormals(random, DRAWS);
    this.#normals[kind].set(cell, normals);
    return normals;
  }
}

/** Adds a meeting's draws so many times. @returns its mean as often */
function addTimes(sum: Float64Array, times: number, { mean, draws }: Meeting): number {
  for (let draw = 0; draw < sum.length; draw += 1) sum[draw] = (sum[draw] ?? 0) + times * (draws[draw] ?? 0);
  return times * mean;
}

/** Every level of one with every level of the other. */
export function cellsOf(call: Pick<CallOption, 'levels'>, answer: Pick<CallOption, 'levels'>): WeightedCell[] {
  return call.levels.flatMap((one) =>
    answer.levels.map((other) => ({ call: one.level, answer: other.level, weight: one.weight * other.weight })),
  );
}

/** Written once an option: each is asked for in every situation. */
const KEYS = new WeakMap<CallOption, string>();

function keyOf(option: CallOption): string {
  const kept = KEYS.get(option);
  if (kept !== undefined) return kept;
  const key = option.levels.map(({ level, weight }) => `${level}x${weight}`).join();
  KEYS.set(option, key);
  return key;
}
