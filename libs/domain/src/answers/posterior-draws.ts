import { drawNormal } from '../statistics/draw-gamma.js';
import { assertCount } from '../statistics/guards.js';
import type { Combination } from '../statistics/mixed-model-equations.js';
import { seededRandom } from '../statistics/seeded-random.js';
import type { FittedOutcome } from './fitted-outcome.js';

/**
 * Seeded draws from the joint posterior of a fitted outcome. Combinations that share effects share their draws, so that
 * a payoff matrix is drawn as a whole.
 */
export class PosteriorDraws {
  /** Draws of the effects that stay, draw by draw. */
  readonly #effects: readonly Float64Array[];
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
    this.#effects = Array.from({ length: count }, () =>
      outcome.drawn(Float64Array.from({ length: outcome.size }, () => drawNormal(random))),
    );
  }

  /** One value a draw. @param sign - -1 for the same draws of what is lost by it */
  of({ mean, shared: { effects, weights }, own }: Combination, sign: 1 | -1 = 1): Float64Array {
    const { count } = this;
    const values = new Float64Array(count);
    for (let draw = 0; draw < count; draw += 1) {
      const drawn = this.#effects[draw] ?? effects;
      let value = mean;
      for (let one = 0; one < effects.length; one += 1) value += (weights[one] ?? 0) * (drawn[effects[one] ?? 0] ?? 0);
      values[draw] = sign * value;
    }
    for (const { level, deviation } of own) {
      const normals = this.#normalsOf(level);
      const scale = sign * deviation;
      for (let draw = 0; draw < count; draw += 1) values[draw] = (values[draw] ?? 0) + scale * (normals[draw] ?? 0);
    }
    return values;
  }

  #normalsOf(level: number): Float64Array {
    const kept = this.#own.get(level);
    if (kept !== undefined) return kept;
    // Levels seen are even, those never seen odd, so that no two share a stream; 2^31 keeps them off other seeds.
    const stream = level < 0 ? -2 * level - 1 : 2 * level;
    const random = seededRandom((this.seed % 2 ** 20) * 2 ** 31 + stream + 1);
    const normals = Float64Array.from({ length: this.count }, () => drawNormal(random));
    this.#own.set(level, normals);
    return normals;
  }
}
