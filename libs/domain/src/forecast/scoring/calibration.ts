import type { RandomSource } from '../../statistics/seeded-random.js';
import type { ScoredPlays } from './forecast-scores.js';

export interface ReliabilityBin {
  /** Forecasts above `from` up to and including `to`; the first bin includes 0. */
  readonly from: number;
  readonly to: number;
  readonly forecasts: number;
  readonly meanForecast: number;
  /** Share of the forecasts that came true. */
  readonly happened: number;
}

export interface Calibration {
  /** Bins that hold forecasts. */
  readonly bins: readonly ReliabilityBin[];
  /** Mean distance of forecast and frequency over the bins, weighted by their forecasts. */
  readonly expectedCalibrationError: number;
  /** The 95 % quantile of that error for a forecast without fault on as many plays, by simulation. */
  readonly faultless95: number;
}

const BINS = 10;
const SIMULATIONS = 400;
const QUANTILE = 0.95;

/**
 * How often what was forecast came true, in ten bins of equal width. With two classes the forecasts are those of the
 * second; with more those of every class, each as a yes or no.
 *
 * Even a forecast without fault has an error above 0 on finitely many plays, so it is compared with what outcomes drawn
 * from the forecast's own probabilities give.
 *
 * @param random - for those draws
 * @see Murphy (1973), J. Appl. Meteorol. 12, 595–600; Bröcker & Smith (2007), Weather Forecast. 22, 651–661 (consistency
 *   by resampling)
 */
export function calibrationOf(scored: ScoredPlays, random: RandomSource): Calibration {
  const { outcome, classes } = scored;
  const told = classes === 2 ? [1] : Array.from({ length: classes }, (_, k) => k);
  const binned = new Binned(scored, told);
  const bins = binned.reliability(outcome);
  const errors = Float64Array.from({ length: SIMULATIONS }, () => binned.error(binned.draw(random))).sort();
  return {
    bins,
    expectedCalibrationError: binned.error(outcome),
    faultless95: errors[Math.ceil(QUANTILE * SIMULATIONS) - 1] ?? 0,
  };
}

class Binned {
  private readonly counts = new Float64Array(BINS);
  private readonly sums = new Float64Array(BINS);
  private readonly binOf: Uint8Array;
  private readonly classes: number;

  constructor(
    private readonly scored: ScoredPlays,
    private readonly told: readonly number[],
  ) {
    const { probabilities, classes } = scored;
    this.classes = classes;
    this.binOf = Uint8Array.from(probabilities, (probability) =>
      Math.min(BINS - 1, Math.max(0, Math.ceil(probability * BINS) - 1)),
    );
    for (let play = 0; play < scored.outcome.length; play += 1) {
      for (const k of told) {
        const cell = play * classes + k;
        const bin = this.binOf[cell] ?? 0;
        this.counts[bin] = (this.counts[bin] ?? 0) + 1;
        this.sums[bin] = (this.sums[bin] ?? 0) + (probabilities[cell] ?? 0);
      }
    }
  }

  reliability(outcome: Int32Array): ReliabilityBin[] {
    const hits = this.hits(outcome);
    return [...this.counts].flatMap((forecasts, bin) => {
      if (forecasts === 0) return [];
      const meanForecast = (this.sums[bin] ?? 0) / forecasts;
      const happened = (hits[bin] ?? 0) / forecasts;
      return [{ from: bin / BINS, to: (bin + 1) / BINS, forecasts, meanForecast, happened }];
    });
  }

  error(outcome: Int32Array): number {
    const hits = this.hits(outcome);
    let all = 0;
    let off = 0;
    for (let bin = 0; bin < BINS; bin += 1) {
      all += this.counts[bin] ?? 0;
      off += Math.abs((this.sums[bin] ?? 0) - (hits[bin] ?? 0));
    }
    return off / all;
  }

  /** What would have happened had every play followed its forecast. */
  draw(random: RandomSource): Int32Array {
    const { probabilities, outcome } = this.scored;
    const { classes } = this;
    return Int32Array.from({ length: outcome.length }, (_, play) => {
      let rest = random();
      let k = 0;
      for (; k + 1 < classes; k += 1) {
        rest -= probabilities[play * classes + k] ?? 0;
        if (rest < 0) break;
      }
      return k;
    });
  }

  private hits(outcome: Int32Array): Float64Array {
    const hits = new Float64Array(BINS);
    for (let play = 0; play < outcome.length; play += 1) {
      const seen = outcome[play] ?? 0;
      if (!this.told.includes(seen)) continue;
      const bin = this.binOf[play * this.classes + seen] ?? 0;
      hits[bin] = (hits[bin] ?? 0) + 1;
    }
    return hits;
  }
}
