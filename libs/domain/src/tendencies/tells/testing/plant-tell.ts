import { calledRunOrPass, starterVocabulary } from '../../../charting/vocabulary.js';
import type { RandomSource } from '../../../statistics/seeded-random.js';
import { whole } from './draws.js';

// Test support: what the finder of tells is to find.

export interface Row {
  readonly game: number;
  readonly situation: number;
  readonly cues: number[];
  call: number;
}

export interface Concept {
  readonly id: number;
  readonly family: number;
}

/** A call that one cue value gives away. */
export interface PlantedSize {
  /** Plays with the cue on which the cue is charted. */
  readonly cuePlays: number;
  /** How much larger the call's share is with the cue, in (0, 1). */
  readonly points: number;
}

export interface PlantingPlan<Field> {
  readonly random: RandomSource;
  readonly rows: readonly Row[];
  readonly concepts: readonly Concept[];
  readonly cues: readonly { readonly field: Field; readonly size: number }[];
}

/** What was planted, and where. */
export interface Planting<Field> {
  readonly field: Field;
  readonly place: number;
  readonly value: number;
  readonly dimension: 'called' | 'callFamily' | 'concept';
  readonly callKey: string;
}

/** Makes one value of one cue give away one call, in rows that are changed in place. */
export function plant<Field>(
  { random, rows, concepts, cues }: PlantingPlan<Field>,
  { cuePlays, points }: PlantedSize,
): Planting<Field> {
  const place = whole(random, cues.length);
  const cue = cues[place];
  if (cue === undefined) throw new RangeError('there is no cue to plant');
  const { field, size } = cue;
  const value = whole(random, size);
  const [chosen, others] = split(random, rows, cuePlays);
  for (const row of others) {
    if (row.cues[place] === value) row.cues[place] = (value + 1) % size;
  }

  const { dimension, callKey, belongs } = plantedCall(random, rows, concepts);
  const within = rows.filter(({ call }) => belongs(call)).map(({ call }) => call);
  const share = within.length / rows.length;
  // The tell is surer in some games than in others: from half of its strength to one and a half.
  const strengths = new Map<number, number>();
  for (const row of chosen) {
    const strength = strengths.get(row.game) ?? 0.5 + random();
    strengths.set(row.game, strength);
    row.cues[place] = value;
    // Replaces whatever was called; of those calls a share was this one already, so the share grows by the points.
    if (random() < Math.min(1, (points * strength) / (1 - share))) row.call = within[whole(random, within.length)] ?? 0;
  }
  return { field, place, value, dimension, callKey };
}

/** A call with a share from 5 to 55 %: there is room above it, and it is a call that this player makes. */
function plantedCall(
  random: RandomSource,
  rows: readonly Row[],
  concepts: readonly Concept[],
): Pick<Planting<never>, 'dimension' | 'callKey'> & { readonly belongs: (call: number) => boolean } {
  const vocabulary = starterVocabulary();
  const options = [
    ...['run', 'pass'].map((word) => ({
      dimension: 'called' as const,
      callKey: word,
      belongs: (call: number) => calledRunOrPass(vocabulary, null, concepts[call]?.id ?? -1) === word,
    })),
    ...[...new Set(concepts.map(({ family }) => family))].map((family) => ({
      dimension: 'callFamily' as const,
      callKey: `term:${family}`,
      belongs: (call: number) => concepts[call]?.family === family,
    })),
    ...concepts.map(({ id }, concept) => ({
      dimension: 'concept' as const,
      callKey: `term:${id}`,
      belongs: (call: number) => call === concept,
    })),
  ].filter(({ belongs }) => {
    const share = rows.filter(({ call }) => belongs(call)).length / rows.length;
    return share >= 0.05 && share <= 0.55;
  });
  // Each kind of call is planted as often as the others, however many calls it has.
  const dimensions = [...new Set(options.map(({ dimension }) => dimension))];
  const dimension = dimensions[whole(random, dimensions.length)];
  const ofDimension = options.filter((option) => option.dimension === dimension);
  const option = ofDimension[whole(random, ofDimension.length)];
  if (option === undefined) throw new RangeError('no call has a share from 5 to 55 %');
  return option;
}

function split(random: RandomSource, rows: readonly Row[], count: number): readonly [Row[], Row[]] {
  const chosen = new Set<Row>();
  while (chosen.size < Math.min(count, rows.length)) {
    const row = rows[whole(random, rows.length)];
    if (row !== undefined) chosen.add(row);
  }
  return [[...chosen], rows.filter((row) => !chosen.has(row))];
}
