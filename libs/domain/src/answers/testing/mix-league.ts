import { drawDirichlet } from '../../statistics/draw-dirichlet.js';
import { seededRandom } from '../../statistics/seeded-random.js';
import { callMix } from '../call-mix.js';
import { fitOutcome } from '../fitted-outcome.js';
import type { CallOption } from '../options.js';
import { PayoffTable } from '../payoffs.js';
import { effectsOfBoth } from '../situation-effects.js';
import { worstColumn } from '../zero-sum.js';
import { answerLeague, type AnswerLeagueSettings } from './answer-league.js';

// Test support: whether the guarantee of a mix holds against the truth that it was drawn from.

export interface GuaranteeFigures {
  readonly leagues: number;
  /** Leagues in which the true worst case of the safe mix was at least what was stated. */
  readonly held: number;
  /** Points a play by which the true worst case was above what was stated, on average. */
  readonly slack: number;
}

export function guaranteesOver(
  seeds: readonly number[],
  settings: Omit<AnswerLeagueSettings, 'seed'>,
): GuaranteeFigures {
  let [held, slack] = [0, 0];
  for (const seed of seeds) {
    const { coded, outcome, truth, callShares } = answerLeague({ ...settings, seed });
    const fitted = fitOutcome(coded, outcome);
    if (fitted === null) throw new Error('the league could not be fitted');
    const options = (count: number, kind: string): CallOption[] =>
      Array.from({ length: count }, (_, level) => ({
        key: `${kind}:${level}`,
        label: `${kind} ${level}`,
        menu: null,
        byItsLike: false,
        levels: [{ level, weight: 1 }],
      }));
    const [calls, answers] = [options(settings.calls, 'call'), options(settings.answers, 'answer')];
    // Two dozen plays of an opponent, and a prior of ten.
    const random = seededRandom(seed + 500_000);
    const alpha = drawDirichlet(
      random,
      callShares(0).map((share) => 24 * share + 0.5),
    ).map((share) => 34 * share);
    // Of the last group of situations where there are several: the table is told which.
    const groups = settings.bySituation?.shares.map((_, at, all) => (at === all.length - 1 ? 1 : 0)) ?? [];
    const effects = groups.length < 2 ? undefined : effectsOfBoth(fitted, outcome, coded.situation, groups.length);
    const game = new PayoffTable(fitted, seed, effects).game('offense', answers, calls, alpha, groups);
    const { dial } = callMix(game, { confidence: 0.9, seed });
    const [safe] = dial;
    const true_ = answers.map((_, answer) =>
      calls.map((__, call) => -truth(call, answer, groups.length - 1) + (fitted.means.means.at(-1) ?? 0)),
    );
    const gain = worstColumn(true_, safe?.shares ?? []) - (safe?.ifTheyAdjust.guarantee ?? Infinity);
    if (gain >= 0) held += 1;
    slack += gain / seeds.length;
  }
  return { leagues: seeds.length, held, slack };
}
