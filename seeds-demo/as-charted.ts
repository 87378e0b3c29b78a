import type { ChartPlan, Mess } from './film.js';
import { chance, oneOf } from './randomness.js';
import type { Adjustment, FieldValues, Side, TruePlay } from './snap.js';
import { isSeenAgain } from './spreading-call.js';
import { PARENTS, SYNONYMS, TAKEN_FOR } from './words.js';
import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import type { RandomSource } from '#domain/statistics/seeded-random.js';

export interface ChartedPlay {
  readonly order: number;
  readonly offense: Side;
  /** In the order of the catalogue; what was not seen is left out. */
  readonly values: Readonly<Record<string, unknown>>;
  readonly note?: string;
}

/**
 * What one charter wrote down of a game: a part of the truth, in the charter's own words, with a few slips. The second
 * source decides what winding back for the call that spreads brought to light.
 */
export function asCharted(
  random: RandomSource,
  again: RandomSource,
  plays: readonly TruePlay[],
  plan: ChartPlan,
): ChartedPlay[] {
  const missed = plan.mess.find(({ kind }) => kind === 'missed snap')?.order;
  return plays.flatMap((play, index) => {
    const trueOrder = index + 1;
    if (trueOrder === missed || !isInScope(play, plan)) return [];
    const mess = plan.mess.find(({ order }) => order === trueOrder);
    const order = missed !== undefined && trueOrder > missed ? trueOrder - 1 : trueOrder;
    const note = noteOn(random, play);
    const values = messedUp(seen(random, again, play, plan), play, mess);
    return [{ order, offense: play.offense, values, ...(note === undefined ? {} : { note }) }];
  });
}

function isInScope({ offense, values }: TruePlay, { filmScope }: ChartPlan): boolean {
  if (filmScope.offense !== null && filmScope.offense !== offense) return false;
  return filmScope.downs === null || (values.down !== undefined && filmScope.downs.includes(values.down));
}

function seen(random: RandomSource, again: RandomSource, play: TruePlay, plan: ChartPlan): Record<string, unknown> {
  const result: Record<string, unknown> = {};
  for (const { name } of PLAY_FIELDS) {
    const value = play.values[name];
    if (value === undefined) continue;
    if (chance(random, knownShare(name, play.values, plan.charter.diligence))) {
      result[name] = typeof value === 'string' ? inOwnWords(random, name, value, plan) : value;
    } else if (plan.charter.windsBack && isSeenAgain(again, name, play)) result[name] = value;
  }
  // A part that hangs on another is not known without it.
  for (const [part, whole] of HANGS_ON) if (result[whole] === undefined) Reflect.deleteProperty(result, part);
  Object.assign(result, theDuel(random, play.adjustments, plan.charter.diligence));
  return result;
}

const HANGS_ON: readonly (readonly [string, string])[] = [
  ['motionBy', 'motion'],
  ['runPassOptionTag', 'runPassOption'],
  ['pressureShown', 'pressure'],
  ['pressurePath', 'pressure'],
  ['pressureSide', 'pressure'],
  ['pressureSource', 'pressure'],
  ['manualDefenderAction', 'manualDefenderStart'],
];

function theDuel(random: RandomSource, adjustments: readonly Adjustment[], diligence: number): Record<string, unknown> {
  if (adjustments.length === 0 || !chance(random, 0.7 * diligence)) return {};
  return chance(random, 0.75) ? { adjustments } : { preSnapAdjustments: adjustments.map(({ term }) => term) };
}

/** How often a field can be seen on a snap with that result, for somebody who looks for everything. */
function knownShare(name: string, values: FieldValues, diligence: number): number {
  const always = ALWAYS[name];
  if (always !== undefined) return always;
  const byResult = BY_RESULT[name];
  const share = byResult === undefined ? (USUALLY[name] ?? 0.6) : byResult[resultGroup(values)];
  return share * diligence;
}

/** Known from the graphics, or because nobody would chart a game without it. */
const ALWAYS: Readonly<Record<string, number>> = {
  playType: 1,
  quarter: 1,
  clockSeconds: 0.97,
  scoreDifference: 0.99,
  down: 0.99,
  distance: 0.985,
  yardsToGoal: 0.985,
  drive: 1,
  called: 0.98,
  snapSecond: 1,
  snapResult: 1,
  ledTo: 1,
  yardsGained: 0.99,
  foul: 1,
  foulSide: 1,
  foulYards: 1,
  foulAnswer: 1,
  foulTiming: 0.9,
  replayed: 1,
  kickLength: 0.95,
  returnYards: 0.95,
};

const USUALLY: Readonly<Record<string, number>> = {
  clockRunning: 0.2,
  offenseTimeouts: 0.3,
  defenseTimeouts: 0.3,
  hash: 0.8,
  tempo: 0.5,
  offensivePersonnel: 0.75,
  defensivePersonnel: 0.45,
  formation: 0.97,
  strength: 0.9,
  backfield: 0.94,
  motion: 0.92,
  motionBy: 0.7,
  front: 0.55,
  alignmentAdjustments: 0.2,
  shell: 0.66,
  boxCount: 0.5,
  manualDefenderStart: 0.3,
  manualDefenderAction: 0.75,
  lineUpSecond: 0.35,
  callFamily: 0.95,
  playFake: 0.35,
  runPassOption: 0.35,
  runPassOptionTag: 0.7,
  designedGap: 0.55,
  designedSide: 0.92,
  pressureShown: 0.6,
  pressureSource: 0.7,
  offDesign: 0.55,
  actualGap: 0.7,
  actualSide: 0.6,
  target: 0.85,
  targetNumber: 0.4,
  targetDepth: 0.95,
  targetZone: 0.75,
  unblockedRusher: 0.25,
  blockDefeated: 0.35,
  passerPressured: 0.75,
};

type ResultGroup = 'run' | 'short pass' | 'long pass' | 'sack' | 'other';

/** What the camera shows depends on the result: deep throws show the coverage, sacks show the pressure. */
const BY_RESULT: Readonly<Record<string, Readonly<Record<ResultGroup, number>>>> = {
  coverage: { run: 0.22, 'short pass': 0.5, 'long pass': 0.85, sack: 0.32, other: 0.3 },
  rushers: { run: 0.1, 'short pass': 0.6, 'long pass': 0.55, sack: 0.97, other: 0.5 },
  pressure: { run: 0.3, 'short pass': 0.5, 'long pass': 0.5, sack: 0.95, other: 0.4 },
  pressurePath: { run: 0.8, 'short pass': 0.85, 'long pass': 0.85, sack: 0.98, other: 0.8 },
  pressureSide: { run: 0.5, 'short pass': 0.5, 'long pass': 0.5, sack: 0.85, other: 0.5 },
  concept: { run: 0.88, 'short pass': 0.85, 'long pass': 0.9, sack: 0.5, other: 0.6 },
};

function resultGroup({ snapResult, called, targetDepth }: FieldValues): ResultGroup {
  if (snapResult === 'sacked') return 'sack';
  if (snapResult === 'rushed' || called === 'run') return 'run';
  if (targetDepth === undefined || targetDepth === 'thrown away') return 'other';
  return targetDepth === 'short' || targetDepth === 'behind the line' ? 'short pass' : 'long pass';
}

/** The term, its parent where the detail was not seen, a word that means the same, or now and then another term. */
function inOwnWords(random: RandomSource, name: string, term: string, { charter }: ChartPlan): string {
  const taken = TAKEN_FOR[name]?.[term];
  if (taken !== undefined && chance(random, charter.slipShare)) return taken;
  const parent = PARENTS[name]?.[term];
  if (parent !== undefined && chance(random, 0.13)) return parent;
  const synonyms = SYNONYMS[name]?.[term];
  return synonyms !== undefined && chance(random, charter.synonymShare) ? oneOf(random, synonyms) : term;
}

function messedUp(
  values: Record<string, unknown>,
  { values: truth }: TruePlay,
  mess: Mess | undefined,
): Record<string, unknown> {
  if (mess === undefined || mess.kind === 'missed snap') return values;
  if (mess.kind === 'wrong down') return { ...values, down: truth.down === 1 ? 2 : 1 };
  const off = mess.kind === 'spot off by one' ? 1 : 10;
  const spot = truth.yardsToGoal ?? 50;
  return { ...values, yardsToGoal: spot > 50 ? spot - off : spot + off };
}

const NOTES = [
  'camera late',
  'replay cut into the snap',
  'look at this one again',
  'same look as the snap before',
  'crowd shot until the snap',
];

function noteOn(random: RandomSource, { values }: TruePlay): string | undefined {
  return values.playType === 'scrimmage' && chance(random, 0.012) ? oneOf(random, NOTES) : undefined;
}
