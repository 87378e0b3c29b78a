import * as field from './field-averages.js';
import type { PlantedCall } from './planted.js';
import { bent, between, chance, logistic, oneOf, pick } from './randomness.js';
import { isEmpty, isHeavy, isLong, isThreeByOne } from './snap.js';
import type { Adjustment, DefenseCall, Hash, Look, OffenseCall, Situation, Strength } from './snap.js';
import type { Habits } from './tendencies.js';
import type { RandomSource } from '#domain/statistics/seeded-random.js';

/** What the offense lines up in. */
export function lineUp(random: RandomSource, habits: Habits, situation: Situation): Look {
  const planted = { ...habits.plants.looks.find(({ when, share }) => when(situation) && chance(random, share))?.then };
  const formation = planted.formation ?? pick(random, formationsNow(habits, situation));
  const motion = planted.motion ?? (isHeavy(formation) ? 'none' : pick(random, habits.motions));
  const movers = field.MOTION_BY[motion];
  return {
    tempo: tempoNow(random, habits, situation),
    personnel: pick(random, field.PERSONNEL_OF[formation] ?? { '11 personnel': 1 }),
    formation,
    // A back that moves out, and a formation that is even, leave the strength to the receivers.
    strength: strengthOf(random, formation),
    backfield: backfieldOf(random, habits, formation, motion),
    motion,
    motionBy: planted.motionBy ?? (movers === undefined ? undefined : pick(random, movers)),
  };
}

export function callOffense(random: RandomSource, habits: Habits, situation: Situation, look: Look): OffenseCall {
  const plant = habits.plants.calls.find(({ when, share }) => when(situation, look) && chance(random, share));
  const planted = plant === undefined ? undefined : oneOf(random, plant.then(situation));
  return completed(random, habits, look, planted ?? ownCall(random, habits, situation, look));
}

export function callDefense(random: RandomSource, habits: Habits, situation: Situation, look: Look): DefenseCall {
  const planted = habits.plants.defenses.find(
    ({ when, share }) => when(situation, look) && chance(random, share),
  )?.then;
  const long = situation.down >= 2 && isLong(situation);
  const onGoalLine = situation.yardsToGoal <= 3 && isHeavy(look.formation);
  const personnel = defensePersonnel(random, look, situation, long);
  const pressure =
    planted?.pressure ?? pick(random, long ? bent(habits.pressures, field.PRESSURES_WHEN_LONG) : habits.pressures);
  const coverage =
    planted?.coverage ??
    (onGoalLine ? 'goal line man' : pick(random, coveragesNow(habits, long, situation.pace, pressure)));
  const comes = planted?.rushers ?? field.RUSHERS[pressure] ?? 4;
  const extra = comes >= 5 || pressure === 'simulated pressure';
  const path = extra ? pick(random, habits.pressurePaths) : undefined;
  const manualStart = pick(random, habits.manualStarts);
  const bluffs = !extra && chance(random, 0.25 * habits.bluffShare + 0.04);
  const calm: DefenseCall = {
    personnel,
    front: onGoalLine ? 'goal line front' : pick(random, habits.fronts),
    shell: shellFor(random, habits, coverage),
    boxCount: boxCountFor(random, look, personnel),
    coverage,
    pressure,
    rushers: comes,
    pressurePath: path,
    pressureSide: path === undefined ? undefined : pick(random, field.PRESSURE_SIDES),
    pressureSource: path === undefined ? undefined : pick(random, field.SOURCES_OF[path] ?? { 'middle linebacker': 1 }),
    pressureShown: shown(random, habits, extra, bluffs),
    manualStart,
    manualAction: pick(random, field.MANUAL_ACTIONS[manualStart] ?? { 'plays the run first': 1 }),
    alignment: [pick(random, field.ALIGNMENTS)],
  };
  return { ...calm, ...planted };
}

/** The duel before the snap: who changes what, with how many seconds left. */
export function duel(
  random: RandomSource,
  offense: Habits,
  defense: Habits,
  look: Look,
  call: OffenseCall,
): Adjustment[] {
  const result: Adjustment[] = [];
  const secondsLeft = between(random, 7, 12);
  if (look.motion === 'jet' && chance(random, defense.plants.changesCoverageOnJet ?? 0.12)) {
    result.push({ term: 'coverage changed', secondsLeft: between(random, 4, 7), trigger: 'jet motion' });
  } else if (chance(random, defense.defenseCheckShare)) {
    result.push({ term: oneOf(random, DEFENSE_CHECKS), secondsLeft });
  }
  if (chance(random, offense.checkShare)) {
    result.push({ term: pick(random, offenseChecks(call)), secondsLeft: between(random, 2, 5) });
  }
  return result;
}

const DEFENSE_CHECKS = [
  'line shifted',
  'linebackers shifted',
  'press or cushion changed',
  'safeties rotated',
  'pressure added',
  'coverage changed',
];

function offenseChecks({ called }: OffenseCall): Record<string, number> {
  return called === 'pass'
    ? {
        'check to pass': 3,
        'one route changed': 4,
        'protection turned left': 2,
        'protection turned right': 2,
        'back kept in': 1,
      }
    : { 'play mirrored': 4, 'check to run': 4, 'hard count': 1, 'check, call unseen': 1 };
}

/** The situation as the field's averages cut it. */
function callSituation({ down, distance, yardsToGoal, pace }: Situation): field.CallSituation {
  if (pace !== 'normal') return pace;
  if (yardsToGoal <= 3) return 'goal line';
  if (down === 1) return 'first';
  if (down === 2) return distance <= 3 ? 'second short' : distance <= 6 ? 'second medium' : 'second long';
  return distance <= 2 ? 'third short' : distance <= 6 ? 'third medium' : 'third long';
}

function formationsNow(habits: Habits, situation: Situation): Record<string, number> {
  if (situation.pace === 'hurry' || (situation.down >= 2 && isLong(situation))) {
    return bent(habits.formations, field.FORMATIONS_WHEN_LONG);
  }
  const short = situation.distance <= 2 || situation.yardsToGoal <= 3;
  return short ? bent(habits.formations, field.FORMATIONS_WHEN_SHORT) : { ...habits.formations, 'goal line': 0 };
}

function tempoNow(random: RandomSource, habits: Habits, { pace }: Situation): string {
  if (pace === 'burn') return 'clock burn';
  if (pace === 'hurry') return chance(random, 0.6) ? 'no-huddle fast' : 'clock stop';
  return pick(random, habits.tempos);
}

const EVEN = ['two by two wide', 'double tight', 'stack', 'goal line'];

function strengthOf(random: RandomSource, formation: string): Strength {
  if (EVEN.includes(formation)) return 'balanced';
  return chance(random, 0.57) ? 'right' : 'left';
}

function backfieldOf(random: RandomSource, habits: Habits, formation: string, motion: string): string {
  if (isEmpty(formation)) return 'shotgun empty';
  if (isHeavy(formation)) return chance(random, 0.6) ? 'under center two backs in line' : 'under center one back';
  const wide = formation.endsWith('wide') || motion === 'back out';
  const underCenter = habits.underCenterShare * (wide ? 0.25 : 1.3);
  const draw = random();
  if (draw < underCenter) {
    return formation === 'pro' && chance(random, 0.3) ? 'under center two backs in line' : 'under center one back';
  }
  if (draw < underCenter + habits.pistolShare) return chance(random, 0.75) ? 'pistol' : 'pistol offset';
  if (EVEN.includes(formation)) return 'shotgun back even';
  return chance(random, 0.5) ? 'shotgun back strong' : 'shotgun back weak';
}

function ownCall(random: RandomSource, habits: Habits, situation: Situation, look: Look): PlantedCall {
  const leaning = habits.passLogit[callSituation(situation)] + leaningOf(look);
  const long = situation.down >= 2 && isLong(situation);
  if (chance(random, logistic(leaning))) {
    const short = situation.distance <= 3 || situation.yardsToGoal <= 6;
    const families = long
      ? bent(habits.passFamilies, field.PASS_FAMILIES_WHEN_LONG)
      : short
        ? bent(habits.passFamilies, field.PASS_FAMILIES_WHEN_SHORT)
        : habits.passFamilies;
    const callFamily = pick(random, isEmpty(look.formation) ? { ...families, 'play action': 0 } : families);
    return { called: 'pass', callFamily, concept: pick(random, habits.concepts[callFamily] ?? { stick: 1 }) };
  }
  return ownRun(random, habits, situation, look, long);
}

function ownRun(random: RandomSource, habits: Habits, situation: Situation, look: Look, long: boolean): PlantedCall {
  if (situation.distance === 1 && chance(random, 0.25)) {
    return { called: 'run', callFamily: 'designed quarterback run', concept: 'quarterback sneak' };
  }
  if (isEmpty(look.formation)) {
    return {
      called: 'run',
      callFamily: 'designed quarterback run',
      concept: pick(random, habits.concepts['designed quarterback run'] ?? {}),
    };
  }
  const gun = !look.backfield.startsWith('under center');
  const fits = bent(habits.runFamilies, {
    draw: long ? 6 : 0.6,
    option: gun ? 1.3 : 0,
    'run-pass option': gun && !long ? 1.5 : 0,
  });
  const callFamily = pick(random, isHeavy(look.formation) ? { run: 1 } : fits);
  return {
    called: callFamily === 'run-pass option' ? undefined : 'run',
    callFamily,
    concept: pick(random, habits.concepts[callFamily] ?? { 'inside zone': 1 }),
  };
}

function leaningOf({ formation, backfield }: Look): number {
  const byFormation = isEmpty(formation) ? 1.7 : isHeavy(formation) ? -1 : isThreeByOne(formation) ? 0.2 : 0;
  return byFormation + (backfield.startsWith('under center') ? -0.6 : 0.12) + (formation === 'double tight' ? -0.4 : 0);
}

/** A call with what follows from it: gap, side, fake and tag. */
function completed(random: RandomSource, habits: Habits, look: Look, call: PlantedCall): OffenseCall {
  const isRun = call.called !== 'pass';
  return {
    called: call.called,
    callFamily: call.callFamily,
    concept: call.concept,
    playFake: call.callFamily === 'play action' || call.concept === 'bootleg flood',
    runPassOptionTag: call.callFamily === 'run-pass option' ? pick(random, field.RUN_PASS_OPTION_TAGS) : undefined,
    designedGap: isRun ? pick(random, field.GAPS_OF[call.concept] ?? { inside: 1 }) : undefined,
    designedSide: isRun ? sideOfRun(random, habits, look, call) : sideOfPass(random, call),
  };
}

function sideOfRun(random: RandomSource, habits: Habits, { strength }: Look, call: PlantedCall): Hash {
  if (call.concept === 'quarterback sneak') return 'middle';
  if (strength === 'balanced') return chance(random, 0.5) ? 'left' : 'right';
  const away = strength === 'left' ? 'right' : 'left';
  return call.toStrength === true || chance(random, habits.runToStrengthShare) ? strength : away;
}

function sideOfPass(random: RandomSource, { callFamily, concept }: PlantedCall): Hash | undefined {
  if (callFamily === 'screen') return concept === 'tunnel screen' ? 'middle' : chance(random, 0.5) ? 'left' : 'right';
  return callFamily === 'moving pocket' ? (chance(random, 0.65) ? 'right' : 'left') : undefined;
}

function defensePersonnel(random: RandomSource, look: Look, situation: Situation, long: boolean): string {
  if (isHeavy(look.formation)) return situation.yardsToGoal <= 5 ? 'goal line people' : 'heavy front people';
  if (long && chance(random, 0.6)) return chance(random, 0.7) ? 'dime four one' : 'dime three two';
  if (look.personnel.startsWith('12') || look.personnel.startsWith('2')) {
    return pick(random, { 'base four three': 45, 'base three four': 25, 'nickel four two': 30 });
  }
  return pick(random, { 'nickel four two': 60, 'nickel three three': 25, 'dime four one': 10, 'base three four': 5 });
}

function coveragesNow(
  habits: Habits,
  long: boolean,
  pace: Situation['pace'],
  pressure: string,
): Record<string, number> {
  if (pressure === 'six-man pressure') return { 'cover 0': 45, 'cover 1': 55 };
  if (pressure === 'five-man man pressure') return { 'cover 1': 75, 'cover 0': 20, 'cover 2 man': 5 };
  if (pressure === 'five-man zone pressure')
    return { 'three deep three under': 70, 'two deep four under with pressure': 30 };
  if (pressure === 'three-man rush') return { 'drop eight': 70, 'cover 4': 20, prevent: pace === 'hurry' ? 60 : 10 };
  return long ? bent(habits.coverages, field.COVERAGES_WHEN_LONG) : habits.coverages;
}

const ONE_HIGH = [
  'cover 1',
  'cover 1 robber',
  'cover 3',
  'cover 3 sky',
  'cover 3 buzz',
  'cover 3 match',
  'three deep three under',
];

function shellFor(random: RandomSource, habits: Habits, coverage: string): string {
  const oneHigh = ONE_HIGH.includes(coverage);
  if (coverage === 'cover 0' || coverage === 'goal line man')
    return chance(random, 0.7) ? 'no deep safety' : 'one high';
  if (coverage === 'prevent') return 'three high';
  if (chance(random, habits.disguiseShare)) return oneHigh ? 'two high' : 'one high';
  if (oneHigh) return pick(random, { 'one high': 70, 'one high rotated strong': 18, 'one high rotated weak': 12 });
  return pick(random, { 'two high': 80, 'two high shallow': 12, 'four across': 8 });
}

function boxCountFor(random: RandomSource, { formation, personnel }: Look, people: string): number {
  if (isHeavy(formation)) return between(random, 8, 9);
  const spread = isEmpty(formation) ? 5 : formation.endsWith('wide') ? 6 : personnel.startsWith('11') ? 6.5 : 7.2;
  return Math.round(
    spread + (people.startsWith('dime') ? -0.4 : people.startsWith('base') ? 0.4 : 0) + (random() - 0.5),
  );
}

function shown(random: RandomSource, habits: Habits, extra: boolean, bluffs: boolean): string | undefined {
  if (bluffs) return 'shown and dropped';
  if (!extra) return undefined;
  return chance(random, 0.5 - 0.25 * habits.bluffShare) ? 'shown and came' : 'not shown and came';
}
