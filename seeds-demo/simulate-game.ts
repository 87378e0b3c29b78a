import {
  betweenPlays,
  kickOff,
  kickOffState,
  leave,
  otherSide,
  scoreDifference,
  type GameSetup,
  type GameState,
} from './game-state.js';
import {
  fieldGoalChance,
  fourthDown,
  goesForTwo,
  playFieldGoal,
  playFreeKick,
  playKickoff,
  playPunt,
  playTryKick,
} from './kicking.js';
import { chance, streamFor } from './randomness.js';
import { playKneel, playScrimmage, playSpike, playTwoPointTry } from './scrimmage.js';
import type { Side, TruePlay } from './snap.js';
import { tellItsStory } from './spreading-call.js';
import { planFor, type Habits } from './tendencies.js';

export interface PlayedGame {
  readonly plays: readonly TruePlay[];
  readonly score: Readonly<Record<Side, number>>;
  readonly firstReceiver: Side;
  readonly ending: GameState['ending'];
  readonly winner: Side;
  readonly videoSeconds: number;
}

/** Plays a whole game. The name decides everything that is left to luck. */
export function simulateGame(name: string, setup: GameSetup, habits: Readonly<Record<Side, Habits>>): PlayedGame {
  const random = streamFor(`game ${name}`);
  const plans = { home: planFor(random, habits.home), away: planFor(random, habits.away) };
  const game = kickOffState(random, setup, plans);
  while (game.next !== 'over') {
    playNext(game);
    betweenPlays(game);
    leaveEarly(game);
  }
  tellItsStory(name, setup.event, game.plays);
  return {
    plays: game.plays,
    score: game.score,
    firstReceiver: game.firstReceiver,
    ending: game.ending,
    winner: game.score.home > game.score.away ? 'home' : 'away',
    videoSeconds: game.videoSecond,
  };
}

function playNext(game: GameState): void {
  switch (game.next) {
    case 'kickoff':
      playKickoff(game);
      return;
    case 'free kick':
      playFreeKick(game);
      return;
    case 'try':
      if (goesForTwo(game)) {
        playTwoPointTry(game);
        kickOff(game, game.ball);
      } else playTryKick(game);
      return;
    case 'scrimmage':
      playDown(game);
      return;
    case 'over':
  }
}

function playDown(game: GameState): void {
  if (endsByKneeling(game)) playKneel(game);
  else if (kicksAtTheEnd(game)) playFieldGoal(game);
  else if (spikes(game)) playSpike(game);
  else if (game.down < 4) playScrimmage(game);
  else {
    const choice = fourthDown(game);
    if (choice === 'punt') playPunt(game);
    else if (choice === 'field goal') playFieldGoal(game);
    else playScrimmage(game);
  }
}

/** What one kneel takes off the clock. */
const KNEEL_SECONDS = 20;

function endsByKneeling(game: GameState): boolean {
  if (game.down === 4 || game.yardsToGoal > 95) return false;
  if (game.quarter === 2) return game.clock <= 8 && game.yardsToGoal > 62;
  const downsToBurn = 4 - game.down - game.timeouts[otherSide(game.ball)];
  return game.quarter === 4 && scoreDifference(game) > 0 && game.clock <= KNEEL_SECONDS * downsToBurn;
}

function kicksAtTheEnd(game: GameState): boolean {
  const difference = scoreDifference(game);
  const helps = game.quarter === 2 || (game.quarter === 4 && difference <= 0 && difference >= -3);
  return helps && game.clock <= 6 && fieldGoalChance(game.yardsToGoal) > 0.4;
}

function spikes(game: GameState): boolean {
  const ends = game.quarter === 2 || (game.quarter === 4 && scoreDifference(game) <= 0);
  return (
    ends &&
    game.clockRuns &&
    game.clock <= 22 &&
    game.clock > 4 &&
    game.down < 3 &&
    game.timeouts[game.ball] === 0 &&
    chance(game.random, 0.3)
  );
}

/** Some who are far behind late do not stay to the end. */
function leaveEarly(game: GameState): void {
  const { mayEndEarly } = game.setup;
  const margin = Math.abs(game.score.home - game.score.away);
  if (
    mayEndEarly !== null &&
    game.quarter === 4 &&
    game.next === 'scrimmage' &&
    margin >= 14 &&
    chance(game.random, 0.15)
  )
    leave(game, mayEndEarly);
}
