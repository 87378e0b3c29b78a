import { callDefense, callOffense, duel, lineUp } from './call-snap.js';
import {
  ledTo,
  otherSide,
  playTime,
  record,
  situationOf,
  startDrive,
  touchdown,
  type GameState,
} from './game-state.js';
import { between, chance, clamp, pick } from './randomness.js';
import { resolveSnap, type Outcome } from './resolve-snap.js';
import type { DefenseCall, FieldValues, Hash, Look, OffenseCall } from './snap.js';

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

// ---------- what a snap is written down as

function lookValues(look: Look): FieldValues {
  return {
    tempo: look.tempo,
    offensivePersonnel: look.personnel,
    formation: look.formation,
    strength: look.strength,
    backfield: look.backfield,
    motion: look.motion,
    ...(look.motionBy === undefined ? {} : { motionBy: look.motionBy }),
  };
}

function callValues(call: OffenseCall): FieldValues {
  const optional: FieldValues = {};
  if (call.called !== undefined) optional.called = call.called;
  if (call.runPassOptionTag !== undefined) optional.runPassOptionTag = call.runPassOptionTag;
  if (call.designedGap !== undefined) optional.designedGap = call.designedGap;
  if (call.designedSide !== undefined) optional.designedSide = call.designedSide;
  return {
    callFamily: call.callFamily,
    concept: call.concept,
    playFake: call.playFake ? 'yes' : 'no',
    runPassOption: call.callFamily === 'run-pass option' ? 'yes' : 'no',
    ...optional,
  };
}

function defenseValues(answer: DefenseCall): FieldValues {
  const optional: FieldValues = {};
  if (answer.pressurePath !== undefined) optional.pressurePath = answer.pressurePath;
  if (answer.pressureSide !== undefined) optional.pressureSide = answer.pressureSide;
  if (answer.pressureSource !== undefined) optional.pressureSource = answer.pressureSource;
  if (answer.pressureShown !== undefined) optional.pressureShown = answer.pressureShown;
  return {
    defensivePersonnel: answer.personnel,
    front: answer.front,
    alignmentAdjustments: answer.alignment,
    shell: answer.shell,
    boxCount: answer.boxCount,
    manualDefenderStart: answer.manualStart,
    coverage: answer.coverage,
    rushers: answer.rushers,
    pressure: answer.pressure,
    manualDefenderAction: answer.manualAction,
    ...optional,
  };
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

// ---------- what follows by the rules

function reachesLine(game: GameState, yards: number): boolean {
  return yards >= game.distance;
}

function isTurnover({ ends }: Outcome): boolean {
  return ends === 'intercepted' || ends === 'fumble lost';
}

/** The rule of 40, 60 and 100 % of the distance. */
function isSuccess(game: GameState, outcome: Outcome, foul: Foul | undefined): boolean {
  if (isTurnover(outcome)) return false;
  if (foul?.addsOn === true || reachesLine(game, outcome.yards)) return true;
  const needed = game.down === 1 ? 0.4 : game.down === 2 ? 0.6 : 1;
  return outcome.yards >= needed * game.distance;
}

function applyOutcome(game: GameState, outcome: Outcome): void {
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

function newSeries(game: GameState): void {
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

// ---------- fouls

interface Foul {
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

function foulBeforeTheSnap(game: GameState, look: Look): boolean {
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
function enforce(game: GameState, foul: Foul): void {
  game.yardsToGoal -= foul.yards;
  if (foul.firstDown || foul.yards >= game.distance) {
    ledTo(game, 'first down gained');
    newSeries(game);
    return;
  }
  game.distance -= foul.yards;
}

/** Yards added to the end of a play, with a new series. */
function addOn(game: GameState, foul: Foul): void {
  game.yardsToGoal -= foul.yards;
  if (game.plays.at(-1)?.values.ledTo?.includes('first down gained') !== true) ledTo(game, 'first down gained');
  newSeries(game);
  game.clockRuns = false;
}

function foulAfterTheSnap(game: GameState, call: OffenseCall, outcome: Outcome): Foul | undefined {
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
