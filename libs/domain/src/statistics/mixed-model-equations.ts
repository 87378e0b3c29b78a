import { choleskyInPlace, inverseOfFactor, solveByInverse } from './cholesky.js';
import type { MixedModelInput } from './mixed-model-input.js';

/** A linear combination of the mean and of levels of the factors. */
export interface EffectPart {
  /** Place of the factor, -1 for the mean. */
  readonly factor: number;
  readonly level: number;
  readonly weight: number;
}

/** A combination made ready: its mean, and what its variance and draws are computed from. */
export interface Combination {
  readonly mean: number;
  /** Takes a while, and most combinations are asked for their mean alone. */
  readonly variance: () => number;
  /** Effects that stay, with the weight of each, beside which the eliminated levels' own parts are independent. */
  readonly shared: SparseWeights;
  /** Of eliminated levels and of those without a record: each one's own standard deviation, with its weight's sign. */
  readonly own: readonly { readonly level: number; readonly deviation: number }[];
}

export interface SparseWeights {
  readonly effects: Int32Array;
  readonly weights: Float64Array;
}

const LOG_TWO_PI = Math.log(2 * Math.PI);

/** Henderson's equations of one data set, ready to be solved under any variances. */
export class MixedModelEquations {
  readonly input: MixedModelInput;
  /** 1 where variances are kept off 0, else 0. */
  readonly #kept: number;
  /** Place of the factor that is eliminated: the one with the most levels. */
  readonly eliminated: number;
  /** Effects that stay: the mean first. */
  readonly size: number;
  /** Place of a factor's first level among the effects that stay; -1 for the eliminated one. */
  readonly firstOf: readonly number[];
  readonly observations: number;
  readonly totalSquares: number;
  readonly #crossCounts: Float64Array;
  readonly #sums: Float64Array;
  /** Of each level of the eliminated factor: observations, sum, and counts by the effects that stay. */
  readonly ownCounts: Float64Array;
  readonly ownSums: Float64Array;
  readonly #shared: readonly SparseCounts[];

  constructor(input: MixedModelInput) {
    this.input = input;
    this.#kept = input.variances === 'kept off 0' ? 1 : 0;
    const { factors, counts, sums, withinSquares } = input;
    this.eliminated = factors.reduce(
      (most, { levels }, place) => (levels > (factors[most]?.levels ?? 0) ? place : most),
      0,
    );
    let size = 1;
    this.firstOf = factors.map(({ levels }, place) => {
      if (place === this.eliminated) return -1;
      const first = size;
      size += levels;
      return first;
    });
    this.size = size;
    const own = factors[this.eliminated];
    this.ownCounts = new Float64Array(own?.levels ?? 0);
    this.ownSums = new Float64Array(own?.levels ?? 0);
    this.#crossCounts = new Float64Array(size * size);
    this.#sums = new Float64Array(size);
    const shared = Array.from({ length: own?.levels ?? 0 }, () => new Map<number, number>());
    let [observations, squares] = [0, withinSquares];
    const effects: number[] = [];
    for (let record = 0; record < counts.length; record += 1) {
      const [count, sum] = [counts[record] ?? 0, sums[record] ?? 0];
      observations += count;
      squares += (sum * sum) / count;
      this.#effectsOf(record, effects);
      for (const row of effects) {
        this.#sums[row] = (this.#sums[row] ?? 0) + sum;
        for (const column of effects) {
          if (column > row) continue;
          const cell = row * size + column;
          this.#crossCounts[cell] = (this.#crossCounts[cell] ?? 0) + count;
        }
      }
      const level = own?.of[record] ?? -1;
      if (level < 0) continue;
      this.ownCounts[level] = (this.ownCounts[level] ?? 0) + count;
      this.ownSums[level] = (this.ownSums[level] ?? 0) + sum;
      const ofLevel = shared[level];
      if (ofLevel === undefined) continue;
      for (const effect of effects) ofLevel.set(effect, (ofLevel.get(effect) ?? 0) + count);
    }
    this.#shared = shared.map((counted) => ({
      effects: Int32Array.from(counted.keys()),
      counts: Float64Array.from(counted.values()),
    }));
    this.observations = observations;
    this.totalSquares = squares;
  }

  /** Counts of an eliminated level's observations by the effects that stay. */
  sharedOf(level: number): SparseCounts {
    return this.#shared[level] ?? NO_COUNTS;
  }

  /** @param variances - one a factor, then the residual one; all above 0 */
  evaluate(variances: readonly number[]): SolvedEquations {
    const { size, input, firstOf, eliminated } = this;
    const residual = variances.at(-1) ?? 1;
    const ratio = (factor: number): number => residual / (variances[factor] ?? 1);
    const matrix = new Float64Array(this.#crossCounts);
    const right = new Float64Array(this.#sums);
    input.factors.forEach(({ levels }, factor) => {
      const first = firstOf[factor] ?? -1;
      if (first < 0) return;
      for (let level = 0; level < levels; level += 1) {
        const cell = (first + level) * (size + 1);
        matrix[cell] = (matrix[cell] ?? 0) + ratio(factor);
      }
    });
    const ownRatio = ratio(eliminated);
    let logDeterminant = 0;
    this.#shared.forEach(({ effects, counts }, level) => {
      const own = (this.ownCounts[level] ?? 0) + ownRatio;
      logDeterminant += Math.log(own);
      const sum = (this.ownSums[level] ?? 0) / own;
      for (let one = 0; one < effects.length; one += 1) {
        const [row, count] = [effects[one] ?? 0, counts[one] ?? 0];
        right[row] = (right[row] ?? 0) - count * sum;
        const part = count / own;
        for (let other = 0; other < effects.length; other += 1) {
          const column = effects[other] ?? 0;
          if (column > row) continue;
          const cell = row * size + column;
          matrix[cell] = (matrix[cell] ?? 0) - part * (counts[other] ?? 0);
        }
      }
    });
    logDeterminant += choleskyInPlace(matrix, size);
    const inverse = inverseOfFactor(matrix, size);
    const effects = solveByInverse(inverse, size, right);
    const ownEffects = this.#ownPart(effects, this.ownSums, ownRatio);
    let explained = 0;
    for (let effect = 0; effect < size; effect += 1) explained += (effects[effect] ?? 0) * (this.#sums[effect] ?? 0);
    for (let level = 0; level < ownEffects.length; level += 1) {
      explained += (ownEffects[level] ?? 0) * (this.ownSums[level] ?? 0);
    }
    const allEffects = input.factors.reduce((sum, { levels }) => sum + levels, 1);
    const criterion =
      logDeterminant -
      allEffects * Math.log(residual) +
      this.observations * Math.log(residual) +
      input.factors.reduce(
        (sum, { levels }, factor) => sum + (levels - this.#kept) * Math.log(variances[factor] ?? 1),
        0,
      ) +
      (this.totalSquares - explained) / residual +
      (this.observations - 1) * LOG_TWO_PI;
    return new SolvedEquations(this, variances, criterion, inverse, effects, ownEffects);
  }

  /** Slope of the log-likelihood, average information, and where an EM step would go; the residual variance last. */
  slopes(at: SolvedEquations): {
    readonly score: readonly number[];
    readonly information: readonly (readonly number[])[];
    readonly expected: readonly number[];
  } {
    const { factors, counts, sums, withinSquares } = this.input;
    const { variances } = at;
    const residual = variances.at(-1) ?? 1;
    const places = [...factors.keys()];
    const traces = places.map((factor) => residual * at.trace(factor));
    const squares = places.map((factor) => at.squares(factor));
    // Records' values of each working vector: the factors' effects by their variance, the residuals by theirs.
    const working = [...places, places.length].map(() => new Float64Array(counts.length));
    let residualSquares = withinSquares;
    for (let record = 0; record < counts.length; record += 1) {
      let fit = at.effects[0] ?? 0;
      for (const factor of places) {
        const effect = at.effect(factor, factors[factor]?.of[record] ?? -1);
        fit += effect;
        const vector = working[factor];
        if (vector !== undefined) vector[record] = effect / (variances[factor] ?? 1);
      }
      const count = counts[record] ?? 1;
      const rest = (sums[record] ?? 0) / count - fit;
      residualSquares += count * rest * rest;
      const vector = working[places.length];
      if (vector !== undefined) vector[record] = rest / residual;
    }
    const projected = working.map((vector) => this.#projection(vector, at));
    const information = working.map((one, row) =>
      working.map((other, column) => {
        let sum = row === places.length && column === row ? withinSquares / residual ** 2 : 0;
        for (let record = 0; record < counts.length; record += 1) {
          const rest = (other[record] ?? 0) - (projected[column]?.[record] ?? 0);
          sum += (counts[record] ?? 0) * (one[record] ?? 0) * rest;
        }
        const kept = row === column && row < places.length ? this.#kept / (2 * (variances[row] ?? 1) ** 2) : 0;
        return sum / (2 * residual) + kept;
      }),
    );
    const freedom = places.reduce(
      (sum, factor) => sum - (factors[factor]?.levels ?? 0) + (traces[factor] ?? 0) / (variances[factor] ?? 1),
      this.observations - 1,
    );
    const score = [
      ...places.map((factor) => {
        const variance = variances[factor] ?? 1;
        const seen = (traces[factor] ?? 0) + (squares[factor] ?? 0);
        return -(((factors[factor]?.levels ?? 0) - this.#kept) / variance - seen / variance ** 2) / 2;
      }),
      -(freedom / residual - residualSquares / residual ** 2) / 2,
    ];
    const expected = [
      ...places.map(
        (factor) =>
          ((traces[factor] ?? 0) + (squares[factor] ?? 0)) / Math.max(1, (factors[factor]?.levels ?? 0) - this.#kept),
      ),
      residualSquares / freedom,
    ];
    return { score, information, expected };
  }

  /** W C⁻¹ W′ f of a vector with one value a record. */
  #projection(vector: Float64Array, at: SolvedEquations): Float64Array {
    const { counts } = this.input;
    const right = new Float64Array(this.size);
    const ownRight = new Float64Array(this.ownCounts.length);
    const own = this.input.factors[this.eliminated];
    const effects: number[] = [];
    for (let record = 0; record < counts.length; record += 1) {
      const value = (counts[record] ?? 0) * (vector[record] ?? 0);
      this.#effectsOf(record, effects);
      for (const effect of effects) right[effect] = (right[effect] ?? 0) + value;
      const level = own?.of[record] ?? -1;
      if (level >= 0) ownRight[level] = (ownRight[level] ?? 0) + value;
    }
    const ownRatio = at.ratio(this.eliminated);
    this.#shared.forEach(({ effects: shared, counts: by }, level) => {
      const part = (ownRight[level] ?? 0) / ((this.ownCounts[level] ?? 0) + ownRatio);
      for (let one = 0; one < shared.length; one += 1) {
        const effect = shared[one] ?? 0;
        right[effect] = (right[effect] ?? 0) - (by[one] ?? 0) * part;
      }
    });
    const solution = solveByInverse(at.inverse, this.size, right);
    const ownSolution = this.#ownPart(solution, ownRight, ownRatio);
    return Float64Array.from(counts, (_, record) => {
      this.#effectsOf(record, effects);
      let sum = 0;
      for (const effect of effects) sum += solution[effect] ?? 0;
      const level = own?.of[record] ?? -1;
      return level < 0 ? sum : sum + (ownSolution[level] ?? 0);
    });
  }

  #ownPart(effects: Float64Array, sums: Float64Array, ownRatio: number): Float64Array {
    return Float64Array.from(sums, (sum, level) => {
      const { effects: shared, counts } = this.sharedOf(level);
      let rest = sum;
      for (let one = 0; one < shared.length; one += 1) rest -= (counts[one] ?? 0) * (effects[shared[one] ?? 0] ?? 0);
      return rest / ((this.ownCounts[level] ?? 0) + ownRatio);
    });
  }

  /** Places of a record's effects among those that stay, written over what the list held. */
  #effectsOf(record: number, effects: number[]): void {
    effects.length = 1;
    effects[0] = 0;
    const { factors } = this.input;
    for (let factor = 0; factor < factors.length; factor += 1) {
      const level = factors[factor]?.of[record] ?? -1;
      const first = this.firstOf[factor] ?? -1;
      if (level >= 0 && first >= 0) effects.push(first + level);
    }
  }
}

interface SparseCounts {
  readonly effects: Int32Array;
  readonly counts: Float64Array;
}

const NO_COUNTS: SparseCounts = { effects: new Int32Array(0), counts: new Float64Array(0) };

/** Effects under some variances, and their joint posterior: normal, with the variances taken as known. */
export class SolvedEquations {
  constructor(
    private readonly equations: MixedModelEquations,
    readonly variances: readonly number[],
    readonly criterion: number,
    /** Inverse of the Cholesky factor of the equations that stay, in units of the residual variance. */
    readonly inverse: Float64Array,
    /** The mean, then the levels of the factors that stay. */
    readonly effects: Float64Array,
    private readonly ownEffects: Float64Array,
  ) {}

  get mean(): number {
    return this.effects[0] ?? 0;
  }

  /** Effects that stay, which is how long a combination's shared part is. */
  get size(): number {
    return this.equations.size;
  }

  ratio(factor: number): number {
    return (this.variances.at(-1) ?? 1) / (this.variances[factor] ?? 1);
  }

  /** 0 for a level of -1. */
  effect(factor: number, level: number): number {
    if (level < 0) return 0;
    if (factor === this.equations.eliminated) return this.ownEffects[level] ?? 0;
    return this.effects[(this.equations.firstOf[factor] ?? 0) + level] ?? 0;
  }

  /**
   * Mean and posterior of a combination of effects.
   *
   * @param parts - a level below 0 of a factor stands for one that has no record: only its spread counts
   */
  combination(parts: readonly EffectPart[]): Combination {
    const { equations } = this;
    const { eliminated, firstOf } = equations;
    const residual = this.variances.at(-1) ?? 1;
    const weights = new Map<number, number>();
    const add = (effect: number, weight: number): void => {
      weights.set(effect, (weights.get(effect) ?? 0) + weight);
    };
    const ownWeights = new Map<number, Map<number, number>>();
    let mean = 0;
    for (const { factor, level, weight } of parts) {
      if (factor >= 0 && (level < 0 || factor === eliminated)) {
        const ofFactor = ownWeights.get(factor) ?? new Map<number, number>();
        ownWeights.set(factor, ofFactor);
        ofFactor.set(level, (ofFactor.get(level) ?? 0) + weight);
        continue;
      }
      const effect = factor < 0 ? 0 : (firstOf[factor] ?? 0) + level;
      mean += weight * (this.effects[effect] ?? 0);
      add(effect, weight);
    }
    const own: { level: number; deviation: number }[] = [];
    for (const [factor, ofFactor] of ownWeights) {
      for (const [level, weight] of ofFactor) {
        const divisor = (level < 0 ? 0 : (equations.ownCounts[level] ?? 0)) + this.ratio(factor);
        own.push({ level, deviation: weight * Math.sqrt(residual / divisor) });
        if (level < 0) continue;
        mean += weight * this.effect(factor, level);
        const { effects, counts } = equations.sharedOf(level);
        for (let one = 0; one < effects.length; one += 1) {
          add(effects[one] ?? 0, (-weight * (counts[one] ?? 0)) / divisor);
        }
      }
    }
    const shared = { effects: Int32Array.from(weights.keys()), weights: Float64Array.from(weights.values()) };
    const variance = (): number =>
      own.reduce((sum, { deviation }) => sum + deviation ** 2, this.#sharedVariance(shared));
    return { mean, variance, shared, own };
  }

  /**
   * One draw of the effects that stay, less their means.
   *
   * @param normals - independent standard normals, one an effect that stays
   */
  drawn(normals: Float64Array): Float64Array {
    const { size } = this.equations;
    const scale = Math.sqrt(this.variances.at(-1) ?? 1);
    const effects = new Float64Array(size);
    for (let row = 0; row < size; row += 1) {
      const normal = scale * (normals[row] ?? 0);
      for (let column = 0; column <= row; column += 1) {
        effects[column] = (effects[column] ?? 0) + normal * (this.inverse[row * size + column] ?? 0);
      }
    }
    return effects;
  }

  #sharedVariance({ effects, weights }: SparseWeights): number {
    const { size } = this.equations;
    const column = new Float64Array(size);
    for (let one = 0; one < effects.length; one += 1) {
      const [effect, weight] = [effects[one] ?? 0, weights[one] ?? 0];
      for (let row = effect; row < size; row += 1) {
        column[row] = (column[row] ?? 0) + weight * (this.inverse[row * size + effect] ?? 0);
      }
    }
    return (this.variances.at(-1) ?? 1) * column.reduce((sum, part) => sum + part * part, 0);
  }

  /** Trace of the factor's block of the inverse, in units of the residual variance. */
  trace(factor: number): number {
    const { equations, inverse } = this;
    const { size } = equations;
    let trace = 0;
    if (factor !== equations.eliminated) {
      const first = equations.firstOf[factor] ?? 0;
      const levels = equations.input.factors[factor]?.levels ?? 0;
      for (let row = first; row < size; row += 1) {
        const last = Math.min(row, first + levels - 1);
        for (let column = first; column <= last; column += 1) trace += (inverse[row * size + column] ?? 0) ** 2;
      }
      return trace;
    }
    const ownRatio = this.ratio(factor);
    const column = new Float64Array(size);
    for (let level = 0; level < equations.ownCounts.length; level += 1) {
      const divisor = (equations.ownCounts[level] ?? 0) + ownRatio;
      const { effects, counts } = equations.sharedOf(level);
      column.fill(0);
      let from = size;
      for (let one = 0; one < effects.length; one += 1) {
        const [effect, count] = [effects[one] ?? 0, counts[one] ?? 0];
        from = Math.min(from, effect);
        for (let row = effect; row < size; row += 1) {
          column[row] = (column[row] ?? 0) + count * (inverse[row * size + effect] ?? 0);
        }
      }
      let form = 0;
      for (let row = from; row < size; row += 1) form += (column[row] ?? 0) ** 2;
      trace += 1 / divisor + form / divisor ** 2;
    }
    return trace;
  }

  /** Sum of the squared effects of a factor. */
  squares(factor: number): number {
    let sum = 0;
    const levels = this.equations.input.factors[factor]?.levels ?? 0;
    for (let level = 0; level < levels; level += 1) sum += this.effect(factor, level) ** 2;
    return sum;
  }
}
