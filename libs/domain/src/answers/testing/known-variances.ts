import type { RandomFactor } from '../../statistics/mixed-model-input.js';
import { solveMixedModel } from '../../statistics/mixed-model.js';
import type { AnswerLeague, AnswerLeagueSettings } from './answer-league.js';

// Test support: the least regret that can be had. Whoever knows the variances that a league was drawn with, and that all
// of it is normal, loses least on average by following the posterior mean; nobody who has to estimate them loses less.

/** Posterior means of call and answer together under the true variances, calls x answers; less what the call itself gives. */
export function bestPossible(
  { coded, outcome }: AnswerLeague,
  { spread, general, deviations }: AnswerLeagueSettings,
): Float64Array {
  const { call, answer, answers, calls, offense, defense, players, gameSide, gameSides } = coded;
  const factor = (levels: number, of: ArrayLike<number>): RandomFactor => ({ levels, of: Int32Array.from(of) });
  const cellOf = Int32Array.from(call, (one, play) => one * answers + (answer[play] ?? 0));
  const { solved } = solveMixedModel(
    {
      factors: [
        factor(calls, call),
        factor(answers, answer),
        factor(calls * answers, cellOf),
        factor(players, offense),
        factor(players, defense),
        factor(gameSides, gameSide),
      ],
      counts: new Float64Array(outcome.length).fill(1),
      sums: outcome,
      withinSquares: 0,
    },
    [
      deviations.call ** 2,
      general * spread ** 2,
      (1 - general) * spread ** 2,
      deviations.offense ** 2,
      deviations.defense ** 2,
      deviations.gameSide ** 2,
      deviations.play ** 2,
    ],
  );
  return Float64Array.from(
    { length: calls * answers },
    (_, cell) => solved.effect(1, cell % answers) + solved.effect(2, cell),
  );
}
