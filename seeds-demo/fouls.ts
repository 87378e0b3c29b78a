import { isTurnover, newSeries, reachesLine } from './after-snap.js';
import { ledTo, record, type GameState } from './game-state.js';
import { between, chance, pick } from './randomness.js';
import type { Outcome } from './matchup.js';
import type { FieldValues, Look, OffenseCall } from './snap.js';
import { lookValues } from './snap-values.js';

export interface Foul {
  readonly values: FieldValues;
  /** The snap has no result. */
  readonly annuls: boolean;
  /** Yards for the offense at the spot of the snap (or, when added on, at the end of the play). */
  readonly yards: number;
  readonly firstDown: boolean;
  readonly addsOn?: boolean;
}

/** Yards of a foul, never more than half the way to the goal line it moves the ball towards. */
function limited(yards: number, room: number): number {
  return Math.min(yards, Math.floor(room / 2));
}

export function foulBeforeTheSnap(game: GameState, look: Look): boolean {
  const { random, yardsToGoal } = game;
  if (!chance(random, 0.02)) return false;
  const foul = pick(random, { 'false start': 55, 'delay of game': 15, 'neutral zone infraction': 30 });
  const byDefense = foul === 'neutral zone infraction';
  const foulYards = limited(5, byDefense ? yardsToGoal : 100 - yardsToGoal);
  const values: FieldValues = {
    playType: 'scrimmage',
    ...lookValues(look),
    callFamily: 'no call',
    snapResult: 'no play',
    foulSide: byDefense ? 'defense' : 'offense',
    foul,
    foulYards,
    foulAnswer: 'accepted',
    foulTiming: 'before the snap',
    replayed: 'yes',
  };
  record(game, values);
  game.videoSecond += between(random, 6, 12);
  game.clockRuns = false;
  enforce(game, { values, annuls: true, yards: byDefense ? foulYards : -foulYards, firstDown: false });
  return true;
}

/** Moves the ball for an accepted foul whose snap does not count. */
export function enforce(game: GameState, foul: Foul): void {
  game.yardsToGoal -= foul.yards;
  if (foul.firstDown || foul.yards >= game.distance) {
    ledTo(game, 'first down gained');
    newSeries(game);
    return;
  }
  game.distance -= foul.yards;
}

/** Yards added to the end of a play, with a new series. */
export function addOn(game: GameState, foul: Foul): void {
  game.yardsToGoal -= foul.yards;
  if (game.plays.at(-1)?.values.ledTo?.includes('first down gained') !== true) ledTo(game, 'first down gained');
  newSeries(game);
  game.clockRuns = false;
}

export function foulAfterTheSnap(game: GameState, call: OffenseCall, outcome: Outcome): Foul | undefined {
  const { random, yardsToGoal } = game;
  if (!chance(random, 0.045)) return undefined;
  const pass = call.called === 'pass';
  const kind = pick(random, {
    'holding by the offense': 38,
    'illegal block': pass ? 0 : 6,
    offside: 16,
    'holding by the defense': pass ? 14 : 0,
    'pass interference by the defense': pass ? 14 : 0,
    roughing: pass ? 6 : 0,
    'face mask': 5,
  });
  const bad = isTurnover(outcome) || outcome.yards < 0 || (game.down >= 3 && outcome.yards < game.distance);
  if (kind === 'holding by the offense' || kind === 'illegal block') {
    const foulYards = limited(10, 100 - yardsToGoal);
    return bad ? declined(kind, 'offense') : annulling(kind, 'offense', foulYards, -foulYards, false);
  }
  if (kind === 'pass interference by the defense') {
    const deep = outcome.values.targetDepth === 'intermediate' || outcome.values.targetDepth === 'deep';
    if (!deep || outcome.ends !== 'incomplete' || yardsToGoal < 12) return undefined;
    const foulYards = Math.min(between(random, 10, 24), yardsToGoal - 1);
    return annulling(kind, 'defense', foulYards, foulYards, true);
  }
  if (kind === 'roughing' || kind === 'face mask') {
    const goesOn = !isTurnover(outcome) && outcome.yards < yardsToGoal && outcome.yards > yardsToGoal - 100;
    // On fourth down the ball would be gone before the yards are walked off; such a play is left alone here.
    return goesOn && game.down < 4 && outcome.ends !== 'out of bounds'
      ? addedOn(kind, limited(15, yardsToGoal - outcome.yards))
      : undefined;
  }
  const good = !isTurnover(outcome) && (reachesLine(game, outcome.yards) || outcome.yards >= 5);
  const foulYards = limited(5, yardsToGoal);
  return good
    ? declined(kind, 'defense')
    : annulling(kind, 'defense', foulYards, foulYards, kind === 'holding by the defense');
}

function declined(foul: string, foulSide: string): Foul {
  const values = { foul, foulSide, foulAnswer: 'declined', foulTiming: 'after the snap', replayed: 'no' };
  return { values, annuls: false, yards: 0, firstDown: false };
}

function annulling(foul: string, foulSide: string, foulYards: number, yards: number, firstDown: boolean): Foul {
  const values = {
    foul,
    foulSide,
    foulYards,
    foulAnswer: 'accepted',
    foulTiming: 'after the snap',
    replayed: firstDown ? 'no' : 'yes',
  };
  return { values, annuls: true, yards, firstDown };
}

function addedOn(foul: string, foulYards: number): Foul {
  const values = {
    foul,
    foulSide: 'defense',
    foulYards,
    foulAnswer: 'accepted',
    foulTiming: 'after the snap',
    replayed: 'no',
  };
  return { values, annuls: false, yards: foulYards, firstDown: true, addsOn: true };
}
