import { applyOutcome, isTurnover, reachesLine } from './after-snap.js';
import { callDefense, callOffense, duel, lineUp } from './call-snap.js';
import { addOn, enforce, foulAfterTheSnap, foulBeforeTheSnap, type Foul } from './fouls.js';
import { otherSide, playTime, record, situationOf, type GameState } from './game-state.js';
import { between, chance, clamp } from './randomness.js';
import type { Outcome } from './matchup.js';
import { resolveSnap } from './resolve-snap.js';
import type { FieldValues, Hash, Look } from './snap.js';
import { callValues, defenseValues, lookValues } from './snap-values.js';

/** One snap from scrimmage: calls, duel, outcome, foul, and what follows by the rules. */
export function playScrimmage(game: GameState): void {
  const { random } = game;
  const situation = situationOf(game);
  const offense = game.habits[game.ball];
  const defense = game.habits[otherSide(game.ball)];
  const look = lineUp(random, offense, situation);
  if (foulBeforeTheSnap(game, look)) return;

  const call = callOffense(random, offense, situation, look);
  const answer = callDefense(random, defense, situation, look);
  const adjustments = duel(random, offense, defense, look, call);
  const outcome = resolveSnap(random, situation, look, call, answer, [offense, defense]);
  const foul = foulAfterTheSnap(game, call, outcome);
  const values: FieldValues = {
    playType: 'scrimmage',
    ...lookValues(look),
    ...defenseValues(answer),
    ...callValues(call),
  };
  const parts = { situation, adjustments, wait: waitAtTheLine(game, look) };

  if (foul?.annuls === true) {
    record(game, { ...values, snapResult: 'no play', ...foul.values }, parts);
    playTime(game, between(random, 3, 6));
    enforce(game, foul);
    game.clockRuns = false;
    return;
  }
  const success = isSuccess(game, outcome, foul);
  record(game, { ...values, ...outcome.values, yardsGained: outcome.yards, ...foul?.values }, { ...parts, success });
  playTime(game, outcome.ends === 'incomplete' ? between(random, 3, 6) : between(random, 4, 8));
  applyOutcome(game, outcome);
  // A drive that goes on remembers what it just did.
  if (game.next === 'scrimmage' && !game.firstOfDrive) {
    game.before = {
      callFamily: call.callFamily,
      concept: call.concept,
      success,
      sacked: outcome.values.snapResult === 'sacked',
    };
    game.hash = nextHash(game, outcome);
    if (foul?.addsOn === true) addOn(game, foul);
  }
}

/** The call of a two-point try: like a snap from the two, without a down. */
export function playTwoPointTry(game: GameState): void {
  const { random } = game;
  game.yardsToGoal = 2;
  game.hash = 'middle';
  const situation = { ...situationOf(game), down: 3, distance: 2, yardsToGoal: 2 };
  const offense = game.habits[game.ball];
  const defense = game.habits[otherSide(game.ball)];
  const look = lineUp(random, offense, situation);
  const call = callOffense(random, offense, situation, look);
  const answer = callDefense(random, defense, situation, look);
  const outcome = resolveSnap(random, situation, look, call, answer, [offense, defense]);
  const good = outcome.yards >= 2;
  record(game, {
    playType: 'two-point try',
    ...lookValues(look),
    ...defenseValues(answer),
    ...callValues(call),
    ...outcome.values,
    yardsGained: clamp(outcome.yards, -9, 2),
    ledTo: [good ? 'try good' : 'try failed'],
  });
  if (good) game.score[game.ball] += 2;
  game.videoSecond += between(random, 8, 16);
}

export function playKneel(game: GameState): void {
  record(game, {
    playType: 'kneel',
    callFamily: 'kneel',
    formation: 'kneel formation',
    snapResult: 'knelt',
    yardsGained: -1,
  });
  playTime(game, 2);
  game.before = null;
  applyOutcome(game, { ...STOPPED, yards: -1, ends: 'in bounds' });
}

export function playSpike(game: GameState): void {
  record(game, { playType: 'spike', callFamily: 'spike', snapResult: 'spiked', yardsGained: 0 });
  playTime(game, 1);
  applyOutcome(game, STOPPED);
}

const STOPPED: Outcome = { values: {}, yards: 0, ends: 'incomplete', turnoverAt: 0, returnYards: 0, fumbleKept: false };

/** The rule of 40, 60 and 100 % of the distance. */
function isSuccess(game: GameState, outcome: Outcome, foul: Foul | undefined): boolean {
  if (isTurnover(outcome)) return false;
  if (foul?.addsOn === true || reachesLine(game, outcome.yards)) return true;
  const needed = game.down === 1 ? 0.4 : game.down === 2 ? 0.6 : 1;
  return outcome.yards >= needed * game.distance;
}

function waitAtTheLine(game: GameState, { tempo }: Look): number {
  if (tempo === 'no-huddle fast' || tempo === 'sugar huddle') return between(game.random, 1, 4);
  return tempo === 'clock burn' ? between(game.random, 10, 16) : between(game.random, 3, 11);
}

function nextHash({ random, hash }: GameState, outcome: Outcome): Hash {
  if (outcome.ends === 'incomplete') return hash;
  const side = outcome.values.actualSide;
  if (side === 'left') return chance(random, 0.6) ? 'left' : 'middle';
  if (side === 'right') return chance(random, 0.6) ? 'right' : 'middle';
  return 'middle';
}
