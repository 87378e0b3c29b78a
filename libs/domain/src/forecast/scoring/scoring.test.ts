import fc from 'fast-check';
import { seededRandom } from '../../statistics/seeded-random.js';
import { baselines } from './baselines.js';
import { calibrationLine } from './calibration-line.js';
import { calibrationOf } from './calibration.js';
import { forecastScores, playLosses } from './forecast-scores.js';
import { lossDifference } from './loss-difference.js';

/** Probabilities of the second of two classes as plays x classes. */
function ofTwo(second: readonly number[]): Float64Array {
  return Float64Array.from(second.flatMap((probability) => [1 - probability, probability]));
}

// Fifteen forecasts in three categories; the decomposition is Murphy's (1973). check: REL 0.0033333333, ECE 0.0333333333.
const FIFTEEN = {
  probabilities: ofTwo([0.1, 0.4, 0.8].flatMap((forecast) => new Array<number>(5).fill(forecast))),
  outcome: Int32Array.from([0, 0, 0, 0, 1, 0, 1, 0, 1, 0, 1, 1, 1, 0, 1]),
  classes: 2,
};

describe('scores of forecasts', () => {
  it('agree with the worked examples of scikit-learn for Brier score and log loss', () => {
    // Documentation of brier_score_loss and log_loss, scikit-learn 1.2.1: 0.0375 and 0.2161618747.
    const brier = forecastScores({
      probabilities: ofTwo([0.1, 0.9, 0.8, 0.3]),
      outcome: Int32Array.of(0, 1, 1, 0),
      classes: 2,
    });
    expect(brier.brier).toBeCloseTo(0.0375, 10);
    const loss = forecastScores({
      probabilities: ofTwo([0.1, 0.9, 0.2, 0.65]),
      outcome: Int32Array.of(0, 1, 0, 1),
      classes: 2,
    });
    expect(loss.logLoss).toBeCloseTo(0.2161618747, 9);
    expect(loss.accuracy).toBe(1);
  });

  it('agree with Murphy (1973) on fifteen forecasts', () => {
    const scores = forecastScores(FIFTEEN);
    expect(scores.brier).toBeCloseTo(0.19, 10);
    expect(scores.logLoss).toBeCloseTo(0.5727398406, 9);
    const { bins, expectedCalibrationError } = calibrationOf(FIFTEEN, seededRandom(1));
    expect(expectedCalibrationError).toBeCloseTo(1 / 30, 10);
    expect(bins.map(({ forecasts }) => forecasts)).toEqual([5, 5, 5]);
    const reliability = bins.reduce(
      (sum, bin) => sum + (bin.forecasts * (bin.meanForecast - bin.happened) ** 2) / 15,
      0,
    );
    expect(reliability).toBeCloseTo(0.0033333333, 9);
  });

  it('sum over the classes where there are more than two', () => {
    // Three classes, computed in R: Brier 0.425, log loss 0.7512649763.
    const scores = forecastScores({
      probabilities: Float64Array.of(0.6, 0.3, 0.1, 0.2, 0.7, 0.1, 0.5, 0.25, 0.25),
      outcome: Int32Array.of(0, 1, 2),
      classes: 3,
    });
    expect(scores.brier).toBeCloseTo(0.425, 10);
    expect(scores.logLoss).toBeCloseTo(0.7512649763, 9);
  });

  it('clip a forecast of nought at 1e-15', () => {
    const [loss] = playLosses({ probabilities: Float64Array.of(1, 0), outcome: Int32Array.of(1), classes: 2 });
    expect(loss).toBeCloseTo(34.53877639, 7);
  });

  it('refuse forecasts that do not fit the plays', () => {
    expect(() =>
      forecastScores({ probabilities: new Float64Array(0), outcome: new Int32Array(0), classes: 2 }),
    ).toThrow(expect.objectContaining({ code: 'stats.invalid_shape' }));
  });
});

describe('calibration', () => {
  const random = seededRandom(11);
  const forecasts = Array.from({ length: 4000 }, () => random());
  const faultless = {
    probabilities: ofTwo(forecasts),
    outcome: Int32Array.from(forecasts, (forecast) => (random() < forecast ? 1 : 0)),
    classes: 2,
  };
  const game = Int32Array.from({ length: 4000 }, (_, play) => Math.floor(play / 40));

  it('finds no fault where outcomes follow the forecast', () => {
    const { expectedCalibrationError, faultless95 } = calibrationOf(faultless, seededRandom(2));
    expect(expectedCalibrationError).toBeLessThan(faultless95);
    const line = calibrationLine(faultless, game, 0.95);
    expect(line?.slopeInterval.lower).toBeLessThan(1);
    expect(line?.slopeInterval.upper).toBeGreaterThan(1);
    expect(line?.interceptInterval.lower).toBeLessThan(0);
    expect(line?.interceptInterval.upper).toBeGreaterThan(0);
  });

  it('tells a forecast that is twice too bold', () => {
    const odds = forecasts.map((forecast) => 2 * Math.log(forecast / (1 - forecast)));
    const bold = { ...faultless, probabilities: ofTwo(odds.map((value) => 1 / (1 + Math.exp(-value)))) };
    const line = calibrationLine(bold, game, 0.95);
    const plain = calibrationLine(faultless, game, 0.95);
    // Twice the log odds has half the slope on the same outcomes, but for the few beyond the cut.
    expect(line?.slope).toBeCloseTo((plain?.slope ?? 0) / 2, 3);
    expect(line?.slopeInterval.upper).toBeLessThan(1);
    const { expectedCalibrationError, faultless95 } = calibrationOf(bold, seededRandom(2));
    expect(expectedCalibrationError).toBeGreaterThan(faultless95);
  });

  it('draws no line through one forecast', () => {
    expect(calibrationLine({ ...faultless, probabilities: ofTwo(forecasts.map(() => 0.5)) }, game, 0.95)).toBeNull();
  });
});

describe('the difference of two forecasts', () => {
  it('agrees with the complete enumeration of the bootstrap of five games', () => {
    // Differences of five games; all 5^5 resamples give the 95 % interval [-0.006, 0.09] (type 1 quantiles).
    const first = Float64Array.of(0.12, -0.03, 0.08, 0.05, -0.01);
    const found = lossDifference(
      first,
      new Float64Array(5),
      Int32Array.of(0, 1, 2, 3, 4),
      0.95,
      40_000,
      seededRandom(5),
    );
    expect(found.difference).toBeCloseTo(0.042, 12);
    // The distribution has steps of 0.002 here.
    expect(Math.abs(found.interval.lower + 0.006)).toBeLessThanOrEqual(0.0021);
    expect(Math.abs(found.interval.upper - 0.09)).toBeLessThanOrEqual(0.0021);
    expect(found.games).toBe(5);
  });

  it('changes its sign when the two are swapped', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 5, noNaN: true }), { minLength: 2, maxLength: 30 }), (losses) => {
        const first = Float64Array.from(losses);
        const second = first.map((loss) => loss / 2 + 0.1);
        const game = Int32Array.from(losses, (_, play) => play % 3);
        const there = lossDifference(first, second, game, 0.9, 50, seededRandom(1));
        const back = lossDifference(second, first, game, 0.9, 50, seededRandom(1));
        expect(back.difference).toBeCloseTo(-there.difference, 12);
      }),
    );
  });

  it('refuses losses of other plays', () => {
    const two = Float64Array.of(1, 2);
    expect(() => lossDifference(two, Float64Array.of(1), Int32Array.of(0, 1), 0.9, 10, seededRandom(1))).toThrow(
      expect.objectContaining({ code: 'stats.invalid_shape' }),
    );
  });
});

it('baselines count one play of each class more than there were', () => {
  const everything = baselines({
    outcome: Int32Array.of(1, 1, 0, 1, 0),
    classes: 2,
    train: Int32Array.of(0, 1, 2, 3),
    test: Int32Array.of(4),
    downAndDistance: Int32Array.of(3, 3, 4, 4, 3),
    player: Int32Array.of(0, 1, 0, 1, 0),
    formation: Int32Array.of(-1, -1, 2, 2, -1),
  });
  expect(everything.map(({ probabilities }) => probabilities[9])).toEqual([4 / 6, 3 / 4, 2 / 3, 3 / 4]);
});
