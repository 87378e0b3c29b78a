import { ledTo, otherSide, startDrive, touchdown, type GameState } from './game-state.js';
import type { Outcome } from './matchup.js';

/** What follows from a snap by the rules: chains, scores, changes of possession. */

export function reachesLine(game: GameState, yards: number): boolean {
  return yards >= game.distance;
}

export function isTurnover({ ends }: Outcome): boolean {
  return ends === 'intercepted' || ends === 'fumble lost';
}

export function applyOutcome(game: GameState, outcome: Outcome): void {
  const offense = game.ball;
  const defense = otherSide(offense);
  if (isTurnover(outcome)) {
    turnOver(game, outcome);
    return;
  }
  if (outcome.fumbleKept) ledTo(game, 'fumble, kept');
  if (outcome.ends === 'out of bounds') ledTo(game, 'out of bounds');
  const yardsToGoal = game.yardsToGoal - outcome.yards;
  if (yardsToGoal <= 0) {
    ledTo(game, 'touchdown, offense');
    touchdown(game, offense);
    return;
  }
  if (yardsToGoal >= 100) {
    ledTo(game, 'safety scored');
    game.score[defense] += 2;
    game.next = 'free kick';
    game.yardsToGoal = 80;
    game.hash = 'middle';
    game.clockRuns = false;
    if (game.quarter > 4) {
      ledTo(game, 'end of game');
      game.next = 'over';
    }
    return;
  }
  game.yardsToGoal = yardsToGoal;
  game.clockRuns = outcome.ends === 'in bounds' || (outcome.ends === 'out of bounds' && game.quarter % 2 === 1);
  game.firstOfDrive = false;
  if (reachesLine(game, outcome.yards)) {
    ledTo(game, 'first down gained');
    newSeries(game);
    return;
  }
  if (game.down === 4) {
    ledTo(game, 'turnover on downs');
    startDrive(game, defense, 100 - yardsToGoal);
    return;
  }
  game.down += 1;
  game.distance -= outcome.yards;
}

export function newSeries(game: GameState): void {
  game.down = 1;
  game.distance = Math.min(10, game.yardsToGoal);
}

function turnOver(game: GameState, outcome: Outcome): void {
  const defense = otherSide(game.ball);
  if (outcome.ends === 'fumble lost') ledTo(game, 'fumble, lost');
  const spot = game.yardsToGoal - outcome.turnoverAt;
  if (spot <= 0) {
    startDrive(game, defense, 80);
    return;
  }
  const toScore = 100 - spot;
  const last = game.plays.at(-1);
  const returnYards = Math.min(outcome.returnYards, toScore);
  if (last !== undefined) last.values.returnYards = returnYards;
  if (returnYards >= toScore) {
    ledTo(game, 'touchdown, defense or return');
    touchdown(game, defense);
    return;
  }
  startDrive(game, defense, toScore - returnYards);
}
