import { drawNormal } from '../statistics/draw-gamma.js';
import type { Combination } from '../statistics/mixed-model-equations.js';
import { seededRandom } from '../statistics/seeded-random.js';
import type { CallOption } from './options.js';
import type { FittedOutcome, WeightedCell } from './fitted-outcome.js';
import type { MixGame } from './call-mix.js';
import { PosteriorDraws } from './posterior-draws.js';
import type { SituationEffects } from './situation-effects.js';

const DRAWS = 400;

/** Payoffs of a fitted outcome, each worked out when first asked for and kept, since situations share them. */
export class PayoffTable {
  readonly #kept = new Map<string, Combination>();
  /** From the view of the offense, and from that of the defense. */
  readonly #drawn = { '1': new Map<string, Float64Array>(), '-1': new Map<string, Float64Array>() };
  readonly #draws: PosteriorDraws;

  readonly #normals = new Map<number, Float64Array>();

  /**
   * @param seed        - of the posterior draws
   * @param bySituation - what answers give more in one group of situations than in another
   */
  constructor(
    readonly outcome: FittedOutcome,
    private readonly seed: number,
    private readonly bySituation: SituationEffects | null = null,
  ) {
    this.#draws = new PosteriorDraws(outcome, DRAWS, seed);
  }

  /** What an offensive call gives against a defensive one, less the mean of the situation. */
  posterior(call: CallOption, answer: CallOption): Combination {
    const key = keyOf(call, answer);
    const kept = this.#kept.get(key);
    if (kept !== undefined) return kept;
    const made = this.outcome.combination(cellsOf(call, answer));
    this.#kept.set(key, made);
    return made;
  }

  /** @param sign - -1 for what the defense gains */
  draws(call: CallOption, answer: CallOption, sign: 1 | -1): Float64Array {
    const drawn = this.#drawn[sign];
    const key = keyOf(call, answer);
    const kept = drawn.get(key);
    if (kept !== undefined) return kept;
    const made = this.#draws.of(this.posterior(call, answer), sign);
    drawn.set(key, made);
    return made;
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
    const pair = (our: CallOption, their: CallOption): readonly [CallOption, CallOption] =>
      theirSide === 'offense' ? [their, our] : [our, their];
    const beside = new Map(
      (theirSide === 'offense' ? ours : theirs).map((answer) => [answer, this.#here(answer, groups)]),
    );
    const meetings = ours.map((our) =>
      theirs.map((their) => {
        const [call, answer] = pair(our, their);
        const drawn = this.draws(call, answer, sign);
        const here = beside.get(answer) ?? null;
        const gain = sign * (this.posterior(call, answer).mean + (here?.mean ?? 0));
        return { gain, drawn: here === null ? drawn : plus(drawn, sign, here.draws) };
      }),
    );
    return {
      payoffs: meetings.map((row) => row.map(({ gain }) => gain)),
      draws: meetings.map((row) => row.map(({ drawn }) => drawn)),
      theirAlpha,
    };
  }

  /** What an answer gives more where plays are of these groups; null where that is told apart nowhere. */
  #here(
    { levels }: CallOption,
    groups: readonly number[],
  ): { readonly mean: number; readonly draws: Float64Array } | null {
    const effects = this.bySituation;
    if (effects === null) return null;
    const draws = new Float64Array(DRAWS);
    let mean = 0;
    for (const { level, weight } of levels) {
      for (const [group, share] of groups.entries()) {
        if (share === 0) continue;
        const cell = level * effects.groups + group;
        const own = weight * share * (effects.means[cell] ?? 0);
        const deviation = weight * share * (effects.deviations[cell] ?? 0);
        const normals = this.#normalsOf(cell);
        mean += own;
        for (let draw = 0; draw < DRAWS; draw += 1)
          draws[draw] = (draws[draw] ?? 0) + own + deviation * (normals[draw] ?? 0);
      }
    }
    return { mean, draws };
  }

  /** The same for every option that the cell is part of, so that what they share is drawn alike. */
  #normalsOf(cell: number): Float64Array {
    const kept = this.#normals.get(cell);
    if (kept !== undefined) return kept;
    const random = seededRandom((this.seed % 2 ** 20) * 2 ** 31 + 2 ** 30 + cell);
    const normals = Float64Array.from({ length: DRAWS }, () => drawNormal(random));
    this.#normals.set(cell, normals);
    return normals;
  }
}

function plus(drawn: Float64Array, sign: 1 | -1, more: Float64Array): Float64Array {
  const sum = new Float64Array(drawn);
  for (let draw = 0; draw < sum.length; draw += 1) sum[draw] = (sum[draw] ?? 0) + sign * (more[draw] ?? 0);
  return sum;
}

/** Every level of one with every level of the other. */
export function cellsOf(call: CallOption, answer: CallOption): WeightedCell[] {
  return call.levels.flatMap((one) =>
    answer.levels.map((other) => ({ call: one.level, answer: other.level, weight: one.weight * other.weight })),
  );
}

function keyOf(call: CallOption, answer: CallOption): string {
  return `${keyOfOne(call)} | ${keyOfOne(answer)}`;
}

/** Written once an option: each meets all those of the other side, twice. */
const KEYS = new WeakMap<CallOption, string>();

function keyOfOne(option: CallOption): string {
  const kept = KEYS.get(option);
  if (kept !== undefined) return kept;
  const key = option.levels.map(({ level, weight }) => `${level}x${weight}`).join();
  KEYS.set(option, key);
  return key;
}
