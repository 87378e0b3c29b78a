import { jersey, type Matchup, type Outcome } from './matchup.js';
import { between, chance, clamp, oneOf, pick, type Weights } from './randomness.js';
import type { DefenseCall, FieldValues, Hash, OffenseCall } from './snap.js';
import type { Habits } from './tendencies.js';
import { drawGamma } from '#domain/statistics/draw-gamma.js';
import type { RandomSource } from '#domain/statistics/seeded-random.js';

type Depth = 'behind the line' | 'short' | 'intermediate' | 'deep';

/** How deep each concept throws. */
const DEPTHS: Readonly<Record<string, Weights>> = {
  'four verticals': { short: 15, intermediate: 40, deep: 45 },
  'switch verticals': { short: 10, intermediate: 35, deep: 55 },
  'double move': { intermediate: 20, deep: 80 },
  fade: { intermediate: 35, deep: 65 },
  mesh: { short: 85, intermediate: 15 },
  'shallow cross': { short: 70, intermediate: 30 },
  drive: { short: 60, intermediate: 40 },
  smash: { short: 40, intermediate: 50, deep: 10 },
  dig: { intermediate: 85, short: 15 },
  'seam clear and dig': { intermediate: 75, deep: 25 },
  'deep cross': { intermediate: 60, deep: 25, short: 15 },
  'deep comeback': { intermediate: 100 },
  'corner and post': { intermediate: 30, deep: 70 },
  'post and cross': { short: 10, intermediate: 40, deep: 50 },
  leak: { intermediate: 50, deep: 50 },
  'tight end pop': { short: 40, intermediate: 60 },
  flood: { short: 45, intermediate: 50, deep: 5 },
  'bootleg flood': { short: 50, intermediate: 45, deep: 5 },
};
const USUAL_DEPTHS: Weights = { short: 85, intermediate: 15 };

const COMPLETES: Readonly<Record<Depth, number>> = {
  'behind the line': 0.9,
  short: 0.74,
  intermediate: 0.57,
  deep: 0.36,
};
const INTERCEPTED: Readonly<Record<Depth, number>> = {
  'behind the line': 0.004,
  short: 0.013,
  intermediate: 0.03,
  deep: 0.05,
};

/** Change of the chance to complete, by concept and by what a coverage begins with. Round numbers, made up. */
const BEATS: Readonly<Record<string, Weights>> = {
  'four verticals': { 'cover 3': 0.14, 'cover 1': 0.02, 'cover 4': -0.15, 'quarter quarter': -0.08 },
  mesh: { 'cover 1': 0.12, 'cover 0': 0.1, 'cover 2 man': 0.12, 'drop eight': -0.15, 'cover 3 buzz': -0.1 },
  'shallow cross': { 'cover 1': 0.08, 'cover 4': 0.1, 'cover 2 middle': -0.08 },
  'curl and flat': { 'cover 3': 0.1, 'cover 2': -0.1, 'cover 1': -0.05 },
  smash: { 'cover 2': 0.14, 'cover 4': -0.08, 'cover 3': -0.06 },
  stick: { 'cover 3': 0.08, 'cover 4': 0.08, 'cover 1': -0.04 },
  slants: { 'cover 0': 0.12, 'cover 1': 0.06, 'cover 2': 0.05, 'cover 1 robber': -0.14 },
  'post and cross': { 'cover 4': 0.1, 'cover 1': 0.08, 'cover 2': -0.1 },
  flood: { 'cover 3': 0.1, 'cover 2': -0.06 },
  fade: { 'cover 1': 0.08, 'cover 0': 0.1, 'cover 3 cloud': -0.1 },
};

export function resolvePass(matchup: Matchup): Outcome {
  const { random, call } = matchup;
  const screen = call.callFamily === 'screen';
  const depth: Depth = screen ? 'behind the line' : asDepth(pick(random, DEPTHS[call.concept] ?? USUAL_DEPTHS));
  const pressured = chance(random, pressuredChance(matchup, depth));
  const draw = random();
  if (pressured ? draw < 0.27 : draw < 0.015) return sacked(matchup, pressured);
  if (!screen && (pressured ? draw < 0.36 : draw < 0.035)) return scrambled(matchup, pressured);
  if (pressured && draw < 0.45) {
    const values = { snapResult: 'thrown away on purpose', targetDepth: 'thrown away', passerPressured: 'yes' };
    return incomplete(values);
  }
  return throwBall(matchup, depth, pressured);
}

function asDepth(word: string): Depth {
  return word === 'deep' || word === 'intermediate' || word === 'behind the line' ? word : 'short';
}

function pressuredChance({ call, defense, offenseHabits, skill }: Matchup, depth: Depth): number {
  const byPressure =
    0.1 + 0.055 * (defense.rushers - 3) + (/game|simulated|overload/.test(defense.pressure) ? 0.06 : 0);
  const byCall =
    call.callFamily === 'screen' ? 0.35 : call.callFamily === 'quick pass' ? 0.6 : depth === 'deep' ? 1.35 : 1.1;
  return clamp(byPressure * byCall + hurtByEdge(offenseHabits, defense) - 0.03 * skill, 0.02, 0.9);
}

function hurtByEdge({ plants }: Habits, { rushers, pressurePath }: DefenseCall): number {
  return rushers >= 5 && pressurePath !== 'interior' ? (plants.hurtByEdge ?? 0) : 0;
}

function sacked({ random, situation, defense }: Matchup, pressured: boolean): Outcome {
  const yards = -between(random, 3, 9);
  const stripped = chance(random, 0.09) && situation.yardsToGoal - yards < 100;
  return {
    values: {
      snapResult: 'sacked',
      passerPressured: pressured ? 'yes' : 'no',
      unblockedRusher: defense.rushers >= 5 && chance(random, 0.5) ? 'yes' : 'no',
    },
    yards,
    ends: stripped && chance(random, 0.55) ? 'fumble lost' : 'in bounds',
    turnoverAt: yards,
    returnYards: chance(random, 0.8) ? 0 : between(random, 1, 20),
    fumbleKept: stripped,
  };
}

function scrambled({ random, situation }: Matchup, pressured: boolean): Outcome {
  const yards = clamp(Math.round(-2 + 3.6 * drawGamma(random, 2)), -2, situation.yardsToGoal);
  return {
    values: {
      snapResult: 'scrambled',
      target: 'quarterback',
      passerPressured: pressured ? 'yes' : 'no',
      offDesign: pressured ? 'passer flushed' : 'no',
    },
    yards,
    ends: chance(random, 0.4) && yards < situation.yardsToGoal ? 'out of bounds' : 'in bounds',
    turnoverAt: 0,
    returnYards: 0,
    fumbleKept: false,
  };
}

export function throwBall(matchup: Matchup, wantedDepth: Depth, pressured: boolean): Outcome {
  const { random, situation } = matchup;
  // Near the goal line there is no room behind the defense.
  const depth = wantedDepth === 'deep' && situation.yardsToGoal < 20 ? 'intermediate' : wantedDepth;
  const air = Math.min(airYards(random, depth), situation.yardsToGoal);
  const values: FieldValues = { ...aimOf(matchup, depth, air), passerPressured: pressured ? 'yes' : 'no' };
  const completes = clamp(completionChance(matchup, depth, pressured), 0.04, 0.97);
  if (!chance(random, completes)) return notComplete(random, depth, values, air, pressured);

  const run = Math.round(afterCatch(random, matchup, depth));
  const yards = clamp(air + run, -6, situation.yardsToGoal);
  const fumbles = chance(random, 0.008) && yards < situation.yardsToGoal;
  return {
    values: { ...values, snapResult: 'complete' },
    yards,
    ends:
      fumbles && chance(random, 0.5)
        ? 'fumble lost'
        : chance(random, 0.18) && yards < situation.yardsToGoal
          ? 'out of bounds'
          : 'in bounds',
    turnoverAt: yards,
    returnYards: 0,
    fumbleKept: fumbles,
  };
}

function notComplete(
  random: RandomSource,
  depth: Depth,
  values: FieldValues,
  air: number,
  pressured: boolean,
): Outcome {
  const share = (INTERCEPTED[depth] / (1 - COMPLETES[depth])) * (pressured ? 1.5 : 0.8);
  if (chance(random, share)) {
    return {
      values: { ...values, snapResult: 'intercepted' },
      yards: 0,
      ends: 'intercepted',
      turnoverAt: air,
      returnYards: chance(random, 0.45) ? 0 : Math.round(5 * drawGamma(random, 1.5)),
      fumbleKept: false,
    };
  }
  return incomplete({ ...values, snapResult: pick(random, { incomplete: 60, defended: 28, dropped: 12 }) });
}

function incomplete(values: FieldValues): Outcome {
  return { values, yards: 0, ends: 'incomplete', turnoverAt: 0, returnYards: 0, fumbleKept: false };
}

function completionChance({ call, defense, offenseHabits, skill }: Matchup, depth: Depth, pressured: boolean): number {
  const beats = BEATS[call.concept === 'bootleg flood' ? 'flood' : call.concept] ?? {};
  // The longest name that fits: `cover 3 buzz` before `cover 3`.
  const fitting = Object.keys(beats).filter((start) => defense.coverage.startsWith(start));
  const matched = fitting.sort((one, other) => other.length - one.length)[0];
  const screenAgainstRush = call.callFamily === 'screen' && defense.rushers >= 5 ? 0.05 : 0;
  return (
    COMPLETES[depth] +
    (matched === undefined ? 0 : (beats[matched] ?? 0)) +
    screenAgainstRush +
    0.045 * skill -
    (pressured ? 0.17 : 0) -
    (defense.coverage === 'prevent' && depth === 'deep' ? 0.2 : 0) -
    0.5 * hurtByEdge(offenseHabits, defense)
  );
}

function airYards(random: RandomSource, depth: Depth): number {
  switch (depth) {
    case 'behind the line':
      return -between(random, 1, 3);
    case 'short':
      return between(random, 1, 9);
    case 'intermediate':
      return between(random, 10, 19);
    case 'deep':
      return between(random, 20, 38);
  }
}

/** Under the second version of the rules, blockers may no longer cut in front of a wide receiver screen: it gains less. */
const SCREEN_LOSS_SINCE_EVENT_3 = 2.2;

function afterCatch(random: RandomSource, { situation, call, defense }: Matchup, depth: Depth): number {
  const mean = depth === 'behind the line' ? 6.2 : depth === 'short' ? 3.4 : depth === 'intermediate' ? 3.2 : 6;
  const loss = call.concept === 'wide receiver screen' && situation.event === 3 ? SCREEN_LOSS_SINCE_EVENT_3 : 0;
  const thin = defense.rushers >= 5 ? 1.5 : 0;
  return (Math.max(0.5, mean + thin - loss) / 1.3) * drawGamma(random, 1.3);
}

/** Target, depth and zone of a throw. */
function aimOf({ random, call }: Matchup, depth: Depth, air: number): FieldValues {
  const target = targetOf(random, call);
  return {
    target,
    targetNumber: jersey(random, target),
    targetDepth: depth === 'deep' && air >= 40 ? 'very deep' : depth,
    targetZone: zoneOf(random, depth),
    ...(call.callFamily === 'screen' && call.designedSide !== undefined
      ? { actualSide: call.designedSide }
      : { actualSide: oneOf<Hash>(random, ['left', 'middle', 'right']) }),
  };
}

function targetOf(random: RandomSource, { concept }: OffenseCall): string {
  if (concept === 'running back screen' || concept === 'back option') return 'running back';
  if (concept === 'tight end pop' || concept === 'leak' || concept === 'tight end screen') return 'attached tight end';
  return pick(random, {
    'outside receiver, multiple side': 26,
    'outside receiver, single side': 24,
    'slot receiver': 26,
    'inner slot': 8,
    'attached tight end': 9,
    'running back': 7,
  });
}

function zoneOf(random: RandomSource, depth: Depth): string {
  switch (depth) {
    case 'behind the line':
      return 'flat';
    case 'short':
      return pick(random, { flat: 35, hook: 40, 'middle hole': 25 });
    case 'intermediate':
      return pick(random, { seam: 30, middle: 30, 'sideline hole': 20, 'outside left': 10, 'outside right': 10 });
    case 'deep':
      return pick(random, { 'deep outside': 55, 'deep middle': 30, seam: 15 });
  }
}
