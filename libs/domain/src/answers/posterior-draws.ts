import { drawNormals } from '../statistics/draw-gamma.js';
import { assertCount } from '../statistics/guards.js';
import type { Combination } from '../statistics/mixed-model-equations.js';
import { seededRandom } from '../statistics/seeded-random.js';
import type { FittedOutcome } from './fitted-outcome.js';

/**
 * Seeded draws from the joint posterior of a fitted outcome. Combinations that share effects share their draws, so that
 * a payoff matrix is drawn as a whole.
 */
export class PosteriorDraws {
  /** Draws of the effects that stay, one effect's after another's: a combination weighs few of many. */
  readonly #effects: Float64Array;
  readonly #own = new Map<number, Float64Array>();

  /**
   * @param outcome - what is drawn from
   * @param count   - draws, ≥ 1
   * @param seed    - integer ≥ 0
   * @throws DomainError `stats.invalid_count`
   */
  constructor(
    outcome: FittedOutcome,
    readonly count: number,
    private readonly seed: number,
  ) {
    assertCount('count', count, { min: 1 });
    const random = seededRandom(seed);
    this.#effects = new Float64Array(outcome.size * count);
    for (let draw = 0; draw < count; draw += 1) {
      const drawn = outcome.drawn(drawNormals(random, outcome.size));
      for (let effect = 0; effect < drawn.length; effect += 1)
        this.#effects[effect * count + draw] = drawn[effect] ?? 0;
    }
  }

  /** One value a draw. */
  of({ mean, shared: { effects, weights }, own }: Combination): Float64Array {
    const { count } = this;
    const values = new Float64Array(count).fill(mean);
    for (let one = 0; one < effects.length; one += 1) {
      const from = (effects[one] ?? 0) * count;
      addTimes(values, weights[one] ?? 0, this.#effects.subarray(from, from + count));
    }
    for (const { level, deviation } of own) addTimes(values, deviation, this.#normalsOf(level));
    return values;
  }

  #normalsOf(level: number): Float64Array {
    const kept = this.#own.get(level);
    if (kept !== undefined) return kept;
    // Levels seen are even, those never seen odd, so that no two share a stream; 2^31 keeps them off other seeds.
    const stream = level < 0 ? -2 * level - 1 : 2 * level;
    const random = seededRandom((this.seed % 2 ** 20) * 2 ** 31 + stream + 1);
    const normals = drawNormals(random, this.count);
    this.#own.set(level, normals);
    return normals;
  }
}

function addTimes(values: Float64Array, weight: number, more: Float64Array): void {
  for (let draw = 0; draw < values.length; draw += 1) values[draw] = (values[draw] ?? 0) + weight * (more[draw] ?? 0);
}
