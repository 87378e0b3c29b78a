import * as field from './field-averages.js';
import { plantsOf, type Plants } from './planted.js';
import { drawnAround, logit, normal, streamFor, type Weights } from './randomness.js';
import type { RandomSource } from '#domain/statistics/seeded-random.js';

/** The hidden habits of a player: what scouting tries to find out. */
export interface Habits {
  /** About -1 to 1: how much better than the field, with and against the ball. */
  readonly offenseSkill: number;
  readonly defenseSkill: number;
  readonly passLogit: Readonly<Record<field.CallSituation, number>>;
  readonly underCenterShare: number;
  readonly pistolShare: number;
  readonly formations: Weights;
  readonly motions: Weights;
  readonly tempos: Weights;
  readonly runFamilies: Weights;
  readonly passFamilies: Weights;
  readonly concepts: Readonly<Record<string, Weights>>;
  readonly runToStrengthShare: number;
  readonly checkShare: number;
  readonly goForIt: number;
  readonly fronts: Weights;
  readonly coverages: Weights;
  readonly pressures: Weights;
  readonly pressurePaths: Weights;
  /** How often the shell shown is not the one that fits the coverage. */
  readonly disguiseShare: number;
  /** How often a shown pressure drops out again. */
  readonly bluffShare: number;
  readonly defenseCheckShare: number;
  readonly manualStarts: Weights;
  readonly plants: Plants;
}

/** How closely players follow the field: a Dirichlet concentration in snaps. */
const CLOSENESS = 40;
/** How closely one game follows the player's habits: every game has a plan of its own. */
const PLAN_CLOSENESS = 70;

const CALL_SITUATIONS: readonly field.CallSituation[] = [
  'first',
  'second short',
  'second medium',
  'second long',
  'third short',
  'third medium',
  'third long',
  'goal line',
  'hurry',
  'burn',
];

/** The habits of a player, the same in every game of the season. */
export function habitsOf(handle: string): Habits {
  const random = streamFor(`habits of ${handle}`);
  const around = (weights: Weights): Weights => drawnAround(random, weights, CLOSENESS);
  const leaning = normal(random, 0, 0.25);
  const plants = plantsOf(handle);
  return {
    offenseSkill: normal(random, 0, 0.5),
    defenseSkill: normal(random, 0, 0.5),
    passLogit: passLogits((situation) => logit(field.PASS_SHARE[situation]) + leaning + normal(random, 0, 0.3)),
    underCenterShare: 0.1 + 0.4 * random(),
    pistolShare: 0.05 + 0.2 * random(),
    formations: around(field.FORMATIONS),
    motions: { ...around(field.MOTIONS), ...plants.motions },
    tempos: around(field.TEMPOS),
    runFamilies: around(field.RUN_FAMILIES),
    passFamilies: around(field.PASS_FAMILIES),
    concepts: Object.fromEntries(Object.entries(field.CONCEPTS).map(([family, weights]) => [family, around(weights)])),
    runToStrengthShare: 0.4 + 0.25 * random(),
    checkShare: 0.06 + 0.16 * random(),
    goForIt: plants.goForIt ?? field.GO_FOR_IT + normal(random, 0, 0.4),
    fronts: around(field.FRONTS),
    coverages: around(field.COVERAGES),
    pressures: around(field.PRESSURES),
    pressurePaths: around(field.PRESSURE_PATHS),
    disguiseShare: 0.08 + 0.17 * random(),
    bluffShare: plants.bluffShare ?? 0.1 + 0.15 * random(),
    defenseCheckShare: 0.08 + 0.12 * random(),
    manualStarts: around(field.MANUAL_STARTS),
    plants,
  };
}

/** The habits as bent for one game: without plans, games would be far more alike than they are. */
export function planFor(random: RandomSource, habits: Habits): Habits {
  const around = (weights: Weights): Weights => drawnAround(random, weights, PLAN_CLOSENESS);
  const leaning = normal(random, 0, 0.25);
  return {
    ...habits,
    passLogit: passLogits((situation) => habits.passLogit[situation] + leaning),
    formations: around(habits.formations),
    runFamilies: around(habits.runFamilies),
    passFamilies: around(habits.passFamilies),
    concepts: Object.fromEntries(Object.entries(habits.concepts).map(([family, weights]) => [family, around(weights)])),
    fronts: around(habits.fronts),
    coverages: around(habits.coverages),
    pressures: around(habits.pressures),
  };
}

function passLogits(at: (situation: field.CallSituation) => number): Record<field.CallSituation, number> {
  const result = { ...field.PASS_SHARE };
  for (const situation of CALL_SITUATIONS) result[situation] = at(situation);
  return result;
}
