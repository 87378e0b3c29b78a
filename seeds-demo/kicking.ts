import {
  endOvertimeAfterScore,
  kickOff,
  ledTo,
  otherSide,
  paceOf,
  playTime,
  record,
  scoreDifference,
  startDrive,
  touchdown,
  type GameState,
} from './game-state.js';
import { between, chance, clamp, logistic } from './randomness.js';
import { drawGamma } from '#domain/statistics/draw-gamma.js';
import type { FieldValues } from './snap.js';

const TOUCHBACK_AFTER_KICKOFF = 75;
const TOUCHBACK_AFTER_PUNT = 80;

export function playKickoff(game: GameState): void {
  const { random, ball: kicker } = game;
  const behind = -scoreDifference(game);
  if (game.quarter === 4 && behind > 0 && behind <= 16 && game.clock <= 40) {
    playOnsideKick(game);
    return;
  }
  const values: FieldValues = { playType: 'kickoff', callFamily: 'kickoff' };
  if (chance(random, 0.6)) {
    record(game, { ...values, snapResult: 'touchback', kickLength: 65 });
    playTime(game, 0);
    startDrive(game, otherSide(kicker), TOUCHBACK_AFTER_KICKOFF);
    return;
  }
  returnKick(game, values, between(random, 56, 66), Math.round(8 + 6 * drawGamma(random, 2)));
}

function playOnsideKick(game: GameState): void {
  const { random, ball: kicker } = game;
  const recovered = chance(random, 0.12);
  const kickLength = between(random, 10, 14);
  record(game, {
    playType: 'kickoff',
    callFamily: 'onside kick',
    kickLength,
    snapResult: recovered ? 'onside recovered by the kickers' : 'onside recovered by the receivers',
  });
  const spot = game.yardsToGoal - kickLength;
  playTime(game, between(random, 1, 4));
  startDrive(game, recovered ? kicker : otherSide(kicker), recovered ? spot : 100 - spot);
}

export function playFreeKick(game: GameState): void {
  returnKick(
    game,
    { playType: 'free kick', callFamily: 'free kick' },
    between(game.random, 52, 62),
    between(game.random, 8, 22),
  );
}

/** A kick that is caught and brought back; the catch is never deeper than the goal line, so that the numbers add up. */
function returnKick(game: GameState, values: FieldValues, length: number, wantedReturn: number): void {
  const { random, ball: kicker, yardsToGoal } = game;
  const kickLength = Math.min(length, yardsToGoal);
  const toScore = 100 - (yardsToGoal - kickLength);
  const returnYards = chance(random, 0.008) ? toScore : Math.min(wantedReturn, toScore - 1);
  record(game, { ...values, snapResult: 'returned', kickLength, returnYards });
  playTime(game, between(random, 4, 8));
  if (returnYards === toScore) {
    ledTo(game, 'touchdown, defense or return');
    touchdown(game, otherSide(kicker));
    return;
  }
  startDrive(game, otherSide(kicker), toScore - returnYards);
}

export function playPunt(game: GameState): void {
  const { random, ball: kicker, yardsToGoal } = game;
  const values: FieldValues = { playType: 'punt', callFamily: 'punt', formation: 'punt formation' };
  const kickLength = Math.min(between(random, 36, 56), yardsToGoal);
  const intoEndZone = kickLength === yardsToGoal && chance(random, 0.7);
  // A kick that would have reached the end zone was dropped short of it.
  const length = intoEndZone ? kickLength : Math.min(kickLength, yardsToGoal - between(random, 2, 12));
  const receiverToGoal = 100 - (yardsToGoal - length);
  const receiver = otherSide(kicker);
  if (intoEndZone) {
    record(game, { ...values, kickLength, snapResult: 'touchback' });
    playTime(game, 5);
    startDrive(game, receiver, TOUCHBACK_AFTER_PUNT);
    return;
  }
  const draw = random();
  if (draw < 0.02) {
    record(game, { ...values, kickLength: length, snapResult: 'muffed' });
    ledTo(game, 'fumble, lost');
    playTime(game, 6);
    startDrive(game, kicker, 100 - receiverToGoal);
    return;
  }
  if (draw < 0.55) {
    const snapResult = draw < 0.3 ? 'fair catch' : 'downed';
    record(game, { ...values, kickLength: length, snapResult });
    playTime(game, 5);
    startDrive(game, receiver, receiverToGoal);
    return;
  }
  const returnYards = clamp(Math.round(4 * drawGamma(random, 1.7)), 0, receiverToGoal - 1);
  record(game, { ...values, kickLength: length, snapResult: 'returned', returnYards });
  playTime(game, between(random, 6, 10));
  startDrive(game, receiver, receiverToGoal - returnYards);
}

/** Yards from the line of scrimmage to the posts: ten of end zone, seven to the hold. */
const HOLD_AND_END_ZONE = 17;

export function fieldGoalChance(yardsToGoal: number): number {
  return logistic(5.6 - 0.105 * (yardsToGoal + HOLD_AND_END_ZONE));
}

export function playFieldGoal(game: GameState): void {
  const { random, ball: kicker, yardsToGoal } = game;
  const made = chance(random, fieldGoalChance(yardsToGoal));
  const blocked = !made && chance(random, 0.08);
  record(game, {
    playType: 'field goal',
    callFamily: 'field goal',
    formation: 'place-kick formation',
    kickLength: yardsToGoal + HOLD_AND_END_ZONE,
    snapResult: made ? 'kick good' : blocked ? 'kick blocked' : 'kick missed',
  });
  playTime(game, 4);
  if (made) {
    game.score[kicker] += 3;
    kickOff(game, kicker);
    endOvertimeAfterScore(game);
    return;
  }
  // The ball goes over at the line of scrimmage, or at the twenty when that was closer to the goal.
  startDrive(game, otherSide(kicker), Math.min(80, 100 - yardsToGoal));
}

/** The kick after a touchdown. The two-point try is played like a snap, see simulate-game.ts. */
export function playTryKick(game: GameState): void {
  const { random, ball } = game;
  game.yardsToGoal = 15;
  game.hash = 'middle';
  const made = chance(random, 0.955);
  record(game, {
    playType: 'try kick',
    callFamily: 'try kick',
    formation: 'place-kick formation',
    kickLength: 32,
    snapResult: made ? 'kick good' : 'kick missed',
    ledTo: [made ? 'try good' : 'try failed'],
  });
  if (made) game.score[ball] += 1;
  game.videoSecond += between(random, 6, 15);
  kickOff(game, ball);
}

export function goesForTwo(game: GameState): boolean {
  const difference = scoreDifference(game);
  const late = game.quarter === 4;
  if (late && [-2, -5, -10, 1, 5].includes(difference)) return chance(game.random, 0.85);
  return chance(game.random, 0.04);
}

/** Punt, kick or go: the field's reasons, then the player's nerve. */
export function fourthDown(game: GameState): 'go' | 'punt' | 'field goal' {
  const { random, yardsToGoal, distance, ball } = game;
  const behind = -scoreDifference(game);
  const inRange = yardsToGoal <= 38;
  const late = game.quarter === 4 && paceOf(game) === 'hurry';
  if (late && behind > 0 && !(behind <= 3 && inRange))
    return game.clock > 45 && distance > 8 && yardsToGoal > 55 ? 'punt' : 'go';
  const nerve =
    game.habits[ball].goForIt +
    (distance === 1 ? 1.3 : distance <= 3 ? 0.3 : distance <= 5 ? -0.9 : -2.6) +
    (yardsToGoal > 60 ? -2.2 : yardsToGoal >= 39 ? 0.5 : yardsToGoal <= 3 ? 0.6 : -0.4) +
    (game.quarter >= 3 && behind > 8 ? 1.2 : 0);
  if (chance(random, logistic(nerve))) return 'go';
  return inRange ? 'field goal' : 'punt';
}
