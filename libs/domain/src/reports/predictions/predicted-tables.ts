import type { Vocabulary } from '../../charting/vocabulary.js';
import { DIMENSION_LABELS, type DimensionName } from '../../tendencies/dimension-names.js';
import { readDimension } from '../../tendencies/dimensions.js';
import type { FieldModel } from '../../tendencies/field-model.js';
import { fieldWithout } from '../../tendencies/field-without.js';
import type { Profile } from '../../tendencies/profile-shape.js';
import { ALL_SNAPS } from '../../tendencies/situation-keys.js';
import type { Side, TendencyPlays } from '../../tendencies/tendency-plays.js';
import { ANY_OTHER } from './classes-of-plays.js';
import type { PredictedClass, PredictedTable } from './predictions-shape.js';

/** What the probabilities of one side are read from. */
export interface PredictionSource {
  readonly facts: TendencyPlays;
  readonly profile: Profile;
  readonly fieldModel: FieldModel;
  /** The player's number in the field model, whose plays are left out of the field; -1 where it has none. */
  readonly player: number;
  readonly vocabulary: Vocabulary;
}

/** What is predicted of a side, coarse before fine. */
const PREDICTED: Readonly<Record<Side, readonly DimensionName[]>> = {
  offense: ['called', 'callFamily'],
  defense: ['front', 'coverage', 'pressure'],
};

/** Classes beyond these are one; a finer table rests on nothing. A choice, no source. */
const MOST_CLASSES = 8;
/** Nothing is ruled out: a call that was never seen may come. A choice, no source. */
export const LEAST_SHARE = 0.001;
const OTHERS: PredictedClass = { valueKey: ANY_OTHER, label: ANY_OTHER };

/**
 * The probabilities of a side's calls by situation, the player's beside the field's: the profile's shrunk shares, what
 * they leave being spread like the field; the field's own shares with one play of every class added. A situation in which
 * the player was never seen has the field's shares. A dimension that nobody charted has no table.
 */
export function predictedTables(source: PredictionSource): PredictedTable[] {
  return PREDICTED[source.profile.side].flatMap((dimension) => predictedTable(source, dimension) ?? []);
}

function predictedTable(source: PredictionSource, dimension: DimensionName): PredictedTable | null {
  const { facts, profile, fieldModel, player, vocabulary } = source;
  const field = fieldWithout(fieldModel, player);
  const overall = field.cell(dimension, ALL_SNAPS);
  const own = ofPlayer(profile, dimension, ALL_SNAPS);
  if (overall.tallies.known === 0 && own.known === 0) return null;

  // What is fixed words has all its values; terms are as many as were charted, and more may come.
  const read = readDimension(dimension, facts, vocabulary).values;
  const fixed = read.length > 0 && read.every(({ termId }) => termId === null);
  const labels = new Map([...overall.values, ...read].map(({ key, label }) => [key, label]));
  const weight = (key: string): number => {
    const count = overall.tallies.counts[field.placeOf(dimension, key)] ?? 0;
    return (own.shares.get(key) ?? 0) + count / Math.max(1, overall.tallies.known);
  };
  const ranked = [...labels.keys()].filter((key) => weight(key) > 0);
  ranked.sort((one, other) => weight(other) - weight(one) || (one < other ? -1 : 1));
  const keys = fixed ? read.map(({ key }) => key) : ranked.slice(0, MOST_CLASSES);
  const classes = keys.map((key): PredictedClass => ({ valueKey: key, label: labels.get(key) ?? key }));
  const all = fixed ? classes : [...classes, OTHERS];

  const places = keys.map((key) => field.placeOf(dimension, key));
  const row = (situation: string): PredictedTable['rows'][number] => {
    const { tallies } = field.cell(dimension, situation);
    const counts = places.map((place) => tallies.counts[place] ?? 0);
    const seen = counts.reduce((sum, count) => sum + count, 0);
    const fieldCounts = fixed ? counts : [...counts, tallies.known - seen];
    const fieldShares = inAll(fieldCounts.map((count) => (count + 1) / (tallies.known + all.length)));
    const { known, shares: listed } = ofPlayer(profile, dimension, situation);
    return { situation, known, shares: known === 0 ? fieldShares : shares(all, listed, fieldShares), fieldShares };
  };
  return {
    side: profile.side,
    dimension,
    label: DIMENSION_LABELS[dimension],
    classes: all,
    rows: [ALL_SNAPS, ...facts.situationNames].map(row),
  };
}

/** What a profile says of a dimension in a situation: the plays that it rests on, and a share for each value seen. */
function ofPlayer(
  { situations }: Profile,
  dimension: DimensionName,
  situation: string,
): { readonly known: number; readonly shares: ReadonlyMap<string, number> } {
  const found = situations
    .find((candidate) => candidate.situation === situation)
    ?.dimensions.find((candidate) => candidate.dimension === dimension);
  const shares = found?.values.map(({ value, shrunk, raw }) => [value.key, shrunk?.share ?? raw.share] as const);
  return { known: found?.known ?? 0, shares: new Map(shares) };
}

/** The player's share of each class; what the listed values leave is spread over the others like the field. */
function shares(
  classes: readonly PredictedClass[],
  listed: ReadonlyMap<string, number>,
  field: readonly number[],
): number[] {
  const named = classes.map(({ valueKey }) => listed.get(valueKey) ?? null);
  const spread = field.reduce((sum, share, place) => sum + (named[place] === null ? share : 0), 0);
  const left = Math.max(0, 1 - named.reduce<number>((sum, share) => sum + (share ?? 0), 0));
  return inAll(named.map((share, place) => share ?? (spread === 0 ? 0 : (left * (field[place] ?? 0)) / spread)));
}

/** The same adding up to 1, none below the least, with as many digits as mean something. */
function inAll(of: readonly number[]): number[] {
  const floored = of.map((share) => Math.max(LEAST_SHARE, share));
  const sum = floored.reduce((total, share) => total + share, 0);
  return floored.map((share) => Number((share / sum).toFixed(6)));
}
