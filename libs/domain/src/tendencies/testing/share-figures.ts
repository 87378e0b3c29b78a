import type { Vocabulary } from '../../charting/vocabulary.js';
import type { Interval } from '../../statistics/interval.js';
import { wilsonInterval } from '../../statistics/wilson-interval.js';
import { fieldModel } from '../field-model.js';
import { DEFAULT_NOTABLE, notableShares } from '../notable.js';
import { profile } from '../profile.js';
import type { Profile } from '../profile-shape.js';
import { ALL_SNAPS } from '../situation-keys.js';
import { playsOf, SIMULATED, simulateLeague, termId, type League, type LeagueSettings } from './league-simulator.js';

// Test support: what profiles say on many leagues of known truth, small in the tests and large in the bench.

export const CONFIDENCE = 0.9;
const DIMENSIONS = SIMULATED.map(({ dimension }) => dimension);
/** How far down a list of notable shares somebody who prepares for an opponent reads. */
const TOP = 10;

/** A small season: 24 players, four games each, every player drawn around the field with a weight of 40 plays. */
export const AS_IN_LIFE: Omit<LeagueSettings, 'seed'> = {
  players: 24,
  games: 4,
  snaps: [30, 45],
  concentration: 40,
  gameConcentration: Number.POSITIVE_INFINITY,
  driftConcentration: Number.POSITIVE_INFINITY,
  specialists: 0,
  planted: 0,
  known: 0.85,
};

export interface ShareRun {
  readonly settings: Omit<LeagueSettings, 'seed'>;
  readonly leagues: number;
  /** Leagues take this seed and those after it. */
  readonly firstSeed: number;
  /** Whose profiles are judged in each league; all players make up the field. */
  readonly judged: readonly number[];
}

interface Judged {
  readonly league: League;
  readonly seed: number;
  readonly player: number;
  readonly profile: Profile;
}

/** One value for one player in one situation, with at least one known play. */
export interface RawCell {
  /** The league's seed: cells of one league go together. */
  readonly seed: number;
  readonly count: number;
  readonly known: number;
  readonly truth: number;
  /** The share around which the league's players were drawn. */
  readonly fieldTruth: number;
  readonly raw: number;
  readonly inRaw: boolean;
}

/** A cell that the profile lists, since the value was seen or is one that the field uses often. */
export interface ListedCell extends RawCell {
  /** As the profile states it: counted over the other players. */
  readonly field: number;
  readonly shrunk: number;
  readonly inShrunk: boolean;
  /** Of the two intervals, as fractions of 1. */
  readonly widths: { readonly shrunk: number; readonly raw: number };
}

export interface ShareCells {
  /** Every value that the league has, seen or not. */
  readonly all: readonly RawCell[];
  readonly listed: readonly ListedCell[];
}

export function shareCells(run: ShareRun, vocabulary: Vocabulary): ShareCells {
  const all: RawCell[] = [];
  const listed: ListedCell[] = [];
  for (const judged of profilesOf(run, vocabulary)) {
    for (const cell of cellsOf(judged)) {
      all.push(cell.raw);
      if (cell.listed !== null) listed.push(cell.listed);
    }
  }
  return { all, listed };
}

/** Counts of profiles. */
export interface PlantedShareFigures {
  readonly profiles: number;
  /** The planted share was called established. */
  readonly established: number;
  /** It stood among the first ten notable shares, established or not. */
  readonly topTen: number;
}

/** Every judged player has one planted habit; the settings say how large. */
export function plantedShares(run: ShareRun, vocabulary: Vocabulary): PlantedShareFigures {
  const figures = { profiles: 0, established: 0, topTen: 0 };
  for (const { league, player, profile: found } of profilesOf(run, vocabulary)) {
    const planted = league.planted.find((habit) => habit.player === player);
    const list = notableShares(found, DEFAULT_NOTABLE);
    const place = list.findIndex(
      ({ situation, share, direction }) =>
        situation.situation === planted?.situation && share.value.key === planted.termKey && direction === 'more',
    );
    figures.profiles += 1;
    if (list[place]?.established === true) figures.established += 1;
    if (place >= 0 && place < TOP) figures.topTen += 1;
  }
  return figures;
}

/** Profiles in which anything at all is called established; in a league of equal players that is a false find. */
export function profilesWithFinds(run: ShareRun, vocabulary: Vocabulary): { profiles: number; withFinds: number } {
  const figures = { profiles: 0, withFinds: 0 };
  for (const { profile: found } of profilesOf(run, vocabulary)) {
    figures.profiles += 1;
    if (notableShares(found, DEFAULT_NOTABLE).some(({ established }) => established)) figures.withFinds += 1;
  }
  return figures;
}

/** One league at a time, since a league and its field are megabytes. */
function* profilesOf({ settings, leagues, firstSeed, judged }: ShareRun, vocabulary: Vocabulary): Generator<Judged> {
  for (let seed = firstSeed; seed < firstSeed + leagues; seed += 1) {
    const league = simulateLeague({ ...settings, seed });
    const field = fieldModel({
      facts: league.facts,
      side: 'offense',
      playerOf: league.playerOf,
      players: settings.players,
      vocabulary,
    });
    for (const player of judged) {
      const found = profile({
        plays: playsOf(league, player),
        side: 'offense',
        vocabulary,
        fieldModel: field,
        player,
        confidence: CONFIDENCE,
        dimensions: DIMENSIONS,
      });
      yield { league, seed, player, profile: found };
    }
  }
}

interface JudgedCell {
  readonly raw: RawCell;
  readonly listed: ListedCell | null;
}

function cellsOf({ league, seed, player, profile: { situations } }: Judged): JudgedCell[] {
  return situations
    .filter(({ situation }) => situation !== ALL_SNAPS)
    .flatMap(({ situation, dimensions }) =>
      SIMULATED.flatMap(({ dimension, values }) => {
        const found = dimensions.find((each) => each.dimension === dimension);
        if (found === undefined || found.known === 0) return [];
        return Array.from({ length: values }, (_, value): JudgedCell => {
          const share = found.values.find((each) => each.value.termId === termId(dimension, value));
          const truth = league.truth(player, dimension, situation, value);
          // What a profile leaves out was never seen; a reader would take it for none of the known plays.
          const { raw } = share ?? { raw: { share: 0, interval: wilsonInterval(0, found.known, CONFIDENCE) } };
          const cell: RawCell = {
            seed,
            count: share?.count ?? 0,
            known: found.known,
            truth,
            fieldTruth: league.fieldTruth(dimension, situation, value),
            raw: raw.share,
            inRaw: holds(raw.interval, truth),
          };
          if (share?.shrunk == null || share.field === null) return { raw: cell, listed: null };
          const { shrunk, field } = share;
          const inShrunk = holds(shrunk.interval, truth);
          const widths = { shrunk: widthOf(shrunk.interval), raw: widthOf(raw.interval) };
          return { raw: cell, listed: { ...cell, field: field.share, shrunk: shrunk.share, inShrunk, widths } };
        });
      }),
    );
}

function holds({ lower, upper }: Interval, truth: number): boolean {
  return lower <= truth && truth <= upper;
}

function widthOf({ lower, upper }: Interval): number {
  return upper - lower;
}
