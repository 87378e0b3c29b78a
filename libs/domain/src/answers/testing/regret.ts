import { fitOutcome } from '../fitted-outcome.js';
import { answerLeague, type AnswerLeagueSettings } from './answer-league.js';
import { bestPossible } from './known-variances.js';

// Test support: what following a recommendation costs against knowing the truth.

export interface Regret {
  /** Points a play given away on average: by following the model, raw means, and what nobody can do better than. */
  readonly model: number;
  readonly raw: number;
  readonly best: number;
  /** Standard error over leagues of the ratio of the two. */
  readonly ratioError: number;
  /** Share of truths inside the model's 90 % interval. */
  readonly covered: number;
}

/** @param seeds - one league a seed */
export function regretOver(seeds: readonly number[], settings: Omit<AnswerLeagueSettings, 'seed'>): Regret {
  const leagues = seeds.map((seed) => regretIn({ ...settings, seed }));
  const sum = (of: (one: (typeof leagues)[number]) => number): number =>
    leagues.reduce((total, league) => total + of(league), 0);
  const mean = (of: (one: (typeof leagues)[number]) => number): number => sum(of) / leagues.length;
  const [model, raw] = [mean((one) => one.model), mean((one) => one.raw)];
  const ratio = model / raw;
  const squares = sum((one) => (one.model - ratio * one.raw) ** 2);
  return {
    model,
    raw,
    best: mean((one) => one.best),
    ratioError: Math.sqrt(squares) / (raw * leagues.length),
    covered: mean((one) => one.covered),
  };
}

const Z_OF_90_PERCENT = 1.6448536269514722;

function regretIn(settings: AnswerLeagueSettings): Omit<Regret, 'ratioError'> {
  const league = answerLeague(settings);
  const { coded, outcome } = league;
  const fitted = fitOutcome(coded, outcome);
  if (fitted === null) throw new Error('the league could not be fitted');
  const { calls, answers } = settings;
  const [counts, sums] = [new Float64Array(calls * answers), new Float64Array(calls * answers)];
  outcome.forEach((value, play) => {
    const cell = (coded.call[play] ?? 0) * answers + (coded.answer[play] ?? 0);
    counts[cell] = (counts[cell] ?? 0) + 1;
    sums[cell] = (sums[cell] ?? 0) + value;
  });
  const known = bestPossible(league, settings);
  let [model, raw, best, covered] = [0, 0, 0, 0];
  for (let call = 0; call < calls; call += 1) {
    const all = Array.from({ length: answers }, (_, answer) => {
      const cell = call * answers + answer;
      const { mean, variance } = fitted.combination([{ call, answer, weight: 1 }]);
      const true_ = league.truth(call, answer);
      if (Math.abs(true_ - mean - fitted.means.overall) <= Z_OF_90_PERCENT * Math.sqrt(variance())) covered += 1;
      return {
        true_,
        mean,
        best: known[cell] ?? 0,
        raw: counts[cell] === 0 ? Infinity : (sums[cell] ?? 0) / (counts[cell] ?? 1),
      };
    });
    const least = Math.min(...all.map(({ true_ }) => true_));
    const chosen = (by: 'mean' | 'raw' | 'best'): number =>
      all.reduce((first, one) => (one[by] < first[by] ? one : first)).true_ - least;
    model += chosen('mean') / calls;
    raw += chosen('raw') / calls;
    best += chosen('best') / calls;
  }
  return { model, raw, best, covered: covered / (calls * answers) };
}
