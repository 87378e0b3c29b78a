import type { Vocabulary } from '../../../charting/vocabulary.js';
import type { TendencyPlays } from '../../tendency-plays.js';
import { leads } from '../leads.js';
import type { CueAndCall, TellsResult } from '../tell-shape.js';
import { DEFAULT_TELL_LEVEL, tells } from '../tells.js';
import type { PlantedSize } from './plant-tell.js';
import { tellLeague, type PlantedTell } from './tell-league.js';

// Test support: what the finder of tells does on many leagues, small in the tests and large in the bench.

export interface LeagueSize {
  readonly games: number;
  readonly playsAGame: number;
}

export interface LeagueRun extends LeagueSize {
  readonly plans: boolean;
  readonly leagues: number;
  /** Leagues take this seed and those after it. */
  readonly firstSeed: number;
}

const CONFIDENCE = 0.9;

/** Reports with any tell at all, among leagues in which nothing tells anything. */
export function nullLeagues(run: LeagueRun, vocabulary: Vocabulary): number {
  return seedsOf(run).filter((seed) => {
    const { facts } = tellLeague({ ...run, seed, planted: null, confounded: false });
    return report(facts, vocabulary).tells.length > 0;
  }).length;
}

export interface ConfoundedFigures {
  /** Reports with a tell of the formation that goes with third and long, and with nothing else. */
  readonly told: number;
  /** The same when all plays are taken as one situation: what stratifying is there for. */
  readonly toldUnstratified: number;
}

export function confoundedLeagues(run: LeagueRun, vocabulary: Vocabulary): ConfoundedFigures {
  let [told, toldUnstratified] = [0, 0];
  for (const seed of seedsOf(run)) {
    const { facts, confoundedKey } = tellLeague({ ...run, seed, planted: null, confounded: true });
    const isTold = (plays: TendencyPlays): boolean =>
      report(plays, vocabulary).tells.some(({ cueValue }) => cueValue.parts.some(({ key }) => key === confoundedKey));
    if (isTold(facts)) told += 1;
    if (isTold({ ...facts, situation: new Int8Array(facts.plays.count), situationNames: ['all'] }))
      toldUnstratified += 1;
  }
  return { told, toldUnstratified };
}

/** Counts of leagues. */
export interface PlantedFigures {
  /** The planted cue value was found to tell the planted call. */
  readonly found: number;
  /** The planted cue value, alone or in a pair, was found to tell something. */
  readonly cueTold: number;
  /** It was found, or its value stands alone among the first three leads. */
  readonly topThree: number;
  /** Of those found: the interval contains the planted difference. */
  readonly covered: number;
  /** A cue was told that was not planted. */
  readonly otherTold: number;
}

export function plantedLeagues(run: LeagueRun, size: PlantedSize, vocabulary: Vocabulary): PlantedFigures {
  const figures = { found: 0, cueTold: 0, topThree: 0, covered: 0, otherTold: 0 };
  for (const seed of seedsOf(run)) {
    const { facts, planted } = tellLeague({ ...run, seed, planted: size, confounded: false });
    if (planted === null) continue;
    const result = report(facts, vocabulary);
    const told = result.tells.filter((tell) => holds(tell, planted));
    const found = told.find(
      (tell) => isAlone(tell) && tell.dimension === planted.dimension && tell.call.key === planted.callKey,
    );
    const isLead = leads(result, 3).some((lead) => isAlone(lead) && holds(lead, planted));
    if (told.length > 0) figures.cueTold += 1;
    if (told.length > 0 || isLead) figures.topThree += 1;
    if (result.tells.some(({ cue }) => !cue.names.includes(planted.cue))) figures.otherTold += 1;
    if (found === undefined) continue;
    figures.found += 1;
    const { interval } = found;
    if (interval !== null && interval.lower <= size.points && size.points <= interval.upper) figures.covered += 1;
  }
  return figures;
}

function report(plays: TendencyPlays, vocabulary: Vocabulary): TellsResult {
  return tells({ plays, side: 'offense', vocabulary, confidence: CONFIDENCE, level: DEFAULT_TELL_LEVEL });
}

function holds({ cue, cueValue }: CueAndCall, planted: PlantedTell): boolean {
  return cue.names.some((name, part) => name === planted.cue && cueValue.parts[part]?.key === planted.key);
}

function isAlone({ cue }: CueAndCall): boolean {
  return cue.names.length === 1;
}

function seedsOf({ leagues, firstSeed }: LeagueRun): number[] {
  return Array.from({ length: leagues }, (_, league) => firstSeed + league);
}
