import { fitOutcome } from '../fitted-outcome.js';
import { effectsOfBoth } from '../situation-effects.js';
import { answerLeague, type AnswerLeagueSettings } from './answer-league.js';

// Test support: what it brings to tell an answer's worth, and a call's, by group of situations.

/** Points a play given away on average, against knowing the truth of the situation. */
export interface SituationRegret {
  readonly leagues: number;
  /** By what is told by group, and by the same worth everywhere. */
  readonly told: number;
  readonly everywhere: number;
  /** By raw means of call and answer. */
  readonly raw: number;
  /** Standard error over leagues of the first less the second. */
  readonly differenceError: number;
  /** Leagues in which a difference between groups was claimed. */
  readonly claimed: number;
}

type Settings = Omit<AnswerLeagueSettings, 'seed' | 'bySituation'> &
  Required<Pick<AnswerLeagueSettings, 'bySituation'>>;

/** @param seeds - one league a seed */
export function situationRegretOver(seeds: readonly number[], settings: Settings): SituationRegret {
  const found = seeds.map((seed) => regretIn(seed, settings));
  const mean = (of: (one: (typeof found)[number]) => number): number =>
    found.reduce((sum, one) => sum + of(one), 0) / found.length;
  const difference = mean(({ told, everywhere }) => told - everywhere);
  const variance = mean(({ told, everywhere }) => (told - everywhere - difference) ** 2);
  return {
    leagues: found.length,
    told: mean(({ told }) => told),
    everywhere: mean(({ everywhere }) => everywhere),
    raw: mean(({ raw }) => raw),
    differenceError: Math.sqrt(variance / Math.max(1, found.length - 1)),
    claimed: found.filter(({ isClaimed }) => isClaimed).length,
  };
}

function regretIn(
  seed: number,
  settings: Settings,
): { told: number; everywhere: number; raw: number; isClaimed: boolean } {
  const { coded, outcome, truth } = answerLeague({ ...settings, seed });
  const { calls, answers } = settings;
  const { shares } = settings.bySituation;
  const fitted = fitOutcome(coded, outcome);
  if (fitted === null) throw new Error('the league could not be fitted');
  const { answers: effects } = effectsOfBoth(fitted, outcome, coded.situation, shares.length);
  const [counts, sums] = [new Float64Array(calls * answers), new Float64Array(calls * answers)];
  outcome.forEach((value, play) => {
    const cell = (coded.call[play] ?? 0) * answers + (coded.answer[play] ?? 0);
    counts[cell] = (counts[cell] ?? 0) + 1;
    sums[cell] = (sums[cell] ?? 0) + value;
  });
  const total = { told: 0, everywhere: 0, raw: 0 };
  for (let call = 0; call < calls; call += 1) {
    for (const [group, share] of shares.entries()) {
      const all = Array.from({ length: answers }, (_, answer) => {
        const { mean } = fitted.combination([{ call, answer, weight: 1 }]);
        const cell = call * answers + answer;
        return {
          true_: truth(call, answer, group),
          everywhere: mean,
          told: mean + (effects?.means[answer * shares.length + group] ?? 0),
          raw: counts[cell] === 0 ? Infinity : (sums[cell] ?? 0) / (counts[cell] ?? 1),
        };
      });
      const best = Math.min(...all.map(({ true_ }) => true_));
      for (const by of ['told', 'everywhere', 'raw'] as const) {
        const chosen = all.reduce((least, one) => (one[by] < least[by] ? one : least));
        total[by] += ((chosen.true_ - best) * share) / calls;
      }
    }
  }
  return { ...total, isClaimed: effects !== null };
}

/** Points a play given away on average by our calls, all answers alike, and in how many leagues calls were told apart. */
export interface CallRegret {
  readonly told: number;
  readonly everywhere: number;
  readonly claimed: number;
}

/** @param seeds - one league a seed */
export function callRegretOver(seeds: readonly number[], settings: Settings): CallRegret {
  const found = seeds.map((seed) => callRegretIn(seed, settings));
  const mean = (of: (one: (typeof found)[number]) => number): number =>
    found.reduce((sum, one) => sum + of(one), 0) / found.length;
  return {
    told: mean(({ told }) => told),
    everywhere: mean(({ everywhere }) => everywhere),
    claimed: found.filter(({ isClaimed }) => isClaimed).length,
  };
}

function callRegretIn(seed: number, settings: Settings): { told: number; everywhere: number; isClaimed: boolean } {
  const { coded, outcome, truth } = answerLeague({ ...settings, seed });
  const { shares } = settings.bySituation;
  const fitted = fitOutcome(coded, outcome);
  if (fitted === null) throw new Error('the league could not be fitted');
  const { calls: effects } = effectsOfBoth(fitted, outcome, coded.situation, shares.length);
  const all = [...Array(settings.answers).keys()];
  const over = (of: (answer: number) => number): number =>
    all.reduce((sum, answer) => sum + of(answer) / all.length, 0);
  const total = { told: 0, everywhere: 0 };
  for (const [group, share] of shares.entries()) {
    const calls = Array.from({ length: settings.calls }, (_, call) => {
      const everywhere = over((answer) => fitted.combination([{ call, answer, weight: 1 }]).mean);
      return {
        true_: over((answer) => truth(call, answer, group)),
        everywhere,
        told: everywhere + (effects?.means[call * shares.length + group] ?? 0),
      };
    });
    const best = Math.max(...calls.map(({ true_ }) => true_));
    for (const by of ['told', 'everywhere'] as const) {
      const chosen = calls.reduce((most, one) => (one[by] > most[by] ? one : most));
      total[by] += (best - chosen.true_) * share;
    }
  }
  return { ...total, isClaimed: effects !== null };
}
