import type { Matchup, Outcome } from './matchup.js';
import { chance } from './randomness.js';
import { resolvePass, throwBall } from './resolve-pass.js';
import { resolveRun } from './resolve-run.js';
import type { DefenseCall, Look, OffenseCall, Situation } from './snap.js';
import type { Habits } from './tendencies.js';
import type { RandomSource } from '#domain/statistics/seeded-random.js';

/** Plays one snap: gains depend on the call, on the answer to it, and on luck most of all. */
export function resolveSnap(
  random: RandomSource,
  situation: Situation,
  look: Look,
  call: OffenseCall,
  defense: DefenseCall,
  [offenseHabits, defenseHabits]: readonly [Habits, Habits],
): Outcome {
  const skill = offenseHabits.offenseSkill - defenseHabits.defenseSkill;
  const matchup = { random, situation, look, call, defense, offenseHabits, skill };
  if (call.callFamily === 'run-pass option') return resolveRunPassOption(matchup);
  return call.called === 'pass' ? resolvePass(matchup) : resolveRun(matchup);
}

function resolveRunPassOption(matchup: Matchup): Outcome {
  const { random, defense } = matchup;
  const throws = chance(random, defense.boxCount >= 7 ? 0.55 : 0.3);
  const outcome = throws ? throwBall(matchup, 'short', false) : resolveRun(matchup);
  return { ...outcome, values: { ...outcome.values, runPassOptionBranch: throws ? 'throw' : 'give' } };
}
