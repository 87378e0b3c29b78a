import type { Combination } from '../statistics/mixed-model-equations.js';
import type { CallOption } from './options.js';
import type { FittedOutcome, WeightedCell } from './fitted-outcome.js';
import type { MixGame } from './call-mix.js';
import { PosteriorDraws } from './posterior-draws.js';

const DRAWS = 400;

/** Payoffs of a fitted outcome, each worked out when first asked for and kept, since situations share them. */
export class PayoffTable {
  readonly #kept = new Map<string, Combination>();
  /** From the view of the offense, and from that of the defense. */
  readonly #drawn = { '1': new Map<string, Float64Array>(), '-1': new Map<string, Float64Array>() };
  readonly #draws: PosteriorDraws;

  /** @param seed - of the posterior draws */
  constructor(
    readonly outcome: FittedOutcome,
    seed: number,
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
   */
  game(
    theirSide: 'offense' | 'defense',
    ours: readonly CallOption[],
    theirs: readonly CallOption[],
    theirAlpha: readonly number[],
  ): MixGame {
    const sign = theirSide === 'offense' ? -1 : 1;
    const pair = (our: CallOption, their: CallOption): readonly [CallOption, CallOption] =>
      theirSide === 'offense' ? [their, our] : [our, their];
    return {
      payoffs: ours.map((our) => theirs.map((their) => sign * this.posterior(...pair(our, their)).mean)),
      draws: ours.map((our) => theirs.map((their) => this.draws(...pair(our, their), sign))),
      theirAlpha,
    };
  }
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
