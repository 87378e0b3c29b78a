import type { Vocabulary } from '../charting/vocabulary.js';
import { assertOpenUnit, assertSameLength } from '../statistics/guards.js';
import { resultsOfPlays } from './decisions/results-of-plays.js';
import type { DimensionCodes } from './dimension-codes.js';
import { dimensionProfile } from './dimension-profile.js';
import { DIMENSION_NAMES, type DimensionName } from './dimension-names.js';
import { readDimension } from './dimensions.js';
import { Evidence } from './evidence.js';
import type { FieldModel } from './field-model.js';
import { fieldWithout } from './field-without.js';
import type { Profile, SituationProfile } from './profile-shape.js';
import { ALL_SNAPS, type SituationKey } from './situation-keys.js';
import { situationPlays } from './situation-plays.js';
import type { Side, TendencyPlays } from './tendency-plays.js';
import { visibilityWarning } from './visibility.js';

export interface ProfileInput {
  /** The player's plays only: those with the ball for offense, those of opponents for defense. */
  readonly plays: TendencyPlays;
  readonly side: Side;
  /** By whose canonical ids the batch and the field were gathered. */
  readonly vocabulary: Vocabulary;
  readonly fieldModel: FieldModel;
  /** The player's number in the field model, whose plays are left out of the field; -1 where the field has none. */
  readonly player: number;
  /** Of every interval, in (0, 1). */
  readonly confidence: number;
  /** All of the side's when left out. */
  readonly dimensions?: readonly DimensionName[];
  /** All that occurred when left out. */
  readonly situations?: readonly SituationKey[];
  /** Recency weights, one a play, ≥ 0; they bear on shares, never on counts or results. */
  readonly weights?: Float64Array;
}

/**
 * What a player does, by situation, with uncertainty. Raw shares carry Wilson intervals; shrunk ones are the posterior's
 * means under the field's prior of two kinds of player, with intervals whose promise is coverage averaged over players and
 * situations, near the field and far off it.
 * Every figure says on how many plays it rests, and knows which.
 *
 * @throws DomainError `stats.invalid_probability` for the confidence, `stats.invalid_shape` for weights of another length
 * @see Wilson (1927), J. Am. Stat. Assoc. 22, 209–212; Morris (1983), J. Am. Stat. Assoc. 78, 47–55
 */
export function profile(input: ProfileInput): Profile {
  const { plays: facts, side, vocabulary, fieldModel, player, confidence, weights } = input;
  assertOpenUnit('confidence', confidence);
  if (weights !== undefined) assertSameLength('weights', Array.from(weights), facts.plays.count);

  const batch = batchOf(facts, vocabulary);
  const others = fieldWithout(fieldModel, player);
  const dimensions = (input.dimensions ?? DIMENSION_NAMES[side]).map((dimension) => {
    const read = batch.read(dimension);
    return { dimension, read, fieldPlaces: read.values.map(({ key }) => others.placeOf(dimension, key)) };
  });

  const situationProfile = (situation: SituationKey, places: Int32Array): SituationProfile => ({
    situation,
    snaps: places.length,
    games: gamesOf(facts, places),
    results: resultsOfPlays(facts, places, others.results(situation), confidence),
    dimensions: dimensions.map(({ dimension, read, fieldPlaces }) =>
      dimensionProfile({
        dimension,
        facts,
        places,
        read,
        fieldPlaces,
        others: others.cell(dimension, situation),
        confidence,
        weights: weights ?? null,
        visibility: situation === ALL_SNAPS ? visibilityWarning(facts, places, read.codes) : null,
      }),
    ),
    evidence: new Evidence(facts.plays, places, () => true),
  });

  const { occurred } = batch;
  const wanted = input.situations;
  const asked = wanted === undefined ? occurred : occurred.filter(([situation]) => wanted.includes(situation));
  const all = occurred.find(([situation]) => situation === ALL_SNAPS)?.[1] ?? new Int32Array(0);
  return {
    side,
    confidence,
    snaps: all.length,
    games: gamesOf(facts, all),
    situations: asked.map(([situation, places]) => situationProfile(situation, places)),
  };
}

/** What a batch says of itself, which is the same for every profile of it. */
class Batch {
  /** Situations that have plays, with the places of these. */
  readonly occurred: readonly (readonly [SituationKey, Int32Array])[];
  readonly #read = new Map<DimensionName, DimensionCodes>();

  constructor(
    private readonly facts: TendencyPlays,
    readonly vocabulary: Vocabulary,
  ) {
    this.occurred = [...situationPlays(facts)].filter(([, places]) => places.length > 0);
  }

  read(dimension: DimensionName): DimensionCodes {
    const kept = this.#read.get(dimension);
    if (kept !== undefined) return kept;
    const read = readDimension(dimension, this.facts, this.vocabulary);
    this.#read.set(dimension, read);
    return read;
  }
}

const BATCHES = new WeakMap<TendencyPlays, Batch>();

function batchOf(facts: TendencyPlays, vocabulary: Vocabulary): Batch {
  const kept = BATCHES.get(facts);
  if (kept?.vocabulary === vocabulary) return kept;
  const batch = new Batch(facts, vocabulary);
  BATCHES.set(facts, batch);
  return batch;
}

function gamesOf({ plays }: TendencyPlays, places: Int32Array): number {
  const games = new Set<string>();
  let last = -1;
  for (const play of places) {
    const chart = plays.chartIndex[play] ?? -1;
    // The plays of one chart mostly lie together.
    if (chart === last) continue;
    last = chart;
    games.add(plays.charts[chart]?.gameId ?? '');
  }
  return games.size;
}
