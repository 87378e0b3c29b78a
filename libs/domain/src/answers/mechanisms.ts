import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import { choiceMask } from '../football/play-masks.js';
import { benjaminiHochberg } from '../statistics/benjamini-hochberg.js';
import type { Interval } from '../statistics/interval.js';
import { normalCdf } from '../statistics/distributions.js';
import { fisherExactTest } from '../statistics/fisher-exact-test.js';
import { differenceOf, type Counted } from '../tendencies/decisions/counted-share.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';

/** Ways in which an answer can hold a call, as far as a chart tells. */
export const MECHANISMS = [
  'free rusher',
  'forced off the design',
  'block defeated',
  'passer pressured',
  'no gain or a loss',
  'explosive play',
] as const;
export type MechanismName = (typeof MECHANISMS)[number];

/** How often something happened when a defense went with an answer, and when it went with another. */
export interface Mechanism {
  readonly name: MechanismName;
  readonly with: Counted;
  /** On the same call, against other answers that were seen. */
  readonly without: Counted;
  /** Share with it less share without, Newcombe's interval; null where either is not known. */
  readonly difference: Interval | null;
  /** Two-sided, with games as clusters; null where nothing can be said. */
  readonly pValue: number | null;
  /** Whether it stands once all that was asked about is taken together (Benjamini-Hochberg). It went with the answer. */
  readonly established: boolean;
}

export interface MechanismSettings {
  readonly confidence: number;
  /** False discovery rate over all answers and mechanisms asked about, in (0, 1). */
  readonly level: number;
}

/** As for answers in the duel: see `DEFAULT_ANSWER_LEVEL` there for what a level of 0.05 lets through. */
export const MECHANISM_LEVEL = 0.05;

const FORCED = [
  'forced by a set edge',
  'forced by penetration',
  'forced by an unblocked rusher',
  'passer flushed',
  'forced, cause unseen',
];

/** 1 yes, 0 no, -1 not known, of each play of a batch. */
export type MechanismFlags = Readonly<Record<MechanismName, Int8Array>>;

/** Reads them off a batch, once for all questions about it. */
export function mechanismFlags(facts: TendencyPlays): MechanismFlags {
  const { plays } = facts;
  const choice = (field: 'unblockedRusher' | 'blockDefeated' | 'passerPressured'): Int8Array =>
    either(choiceMask(plays, field, ['yes']), choiceMask(plays, field, ['no']));
  const yards = plays.number('yardsGained').values;
  return {
    'free rusher': choice('unblockedRusher'),
    'forced off the design': either(
      choiceMask(plays, 'offDesign', FORCED),
      choiceMask(plays, 'offDesign', ['no', 'read by design']),
    ),
    'block defeated': choice('blockDefeated'),
    'passer pressured': choice('passerPressured'),
    'no gain or a loss': Int8Array.from(yards, (gain) => (gain === UNKNOWN_NUMBER ? -1 : gain <= 0 ? 1 : 0)),
    'explosive play': Int8Array.from(facts.explosive),
  };
}

function either(yes: Uint8Array, no: Uint8Array): Int8Array {
  return Int8Array.from(yes, (is, play) => (is === 1 ? 1 : no[play] === 1 ? 0 : -1));
}

/**
 * What moved with each answer to one call: rates with it against rates with other answers. The p-value is the larger one
 * of Fisher's exact test, for few plays, and of the difference over its error between games, for plays of one game that
 * share its defense and its day. Defenses choose their answers, so this is what went with an answer and not what it did.
 *
 * @param places  - plays of the call in the batch
 * @param belongs - for each answer asked about 1 where a play met it, 0 where it met another, -1 where that was not seen
 * @returns for each answer its mechanisms, those known on no play left out
 * @throws DomainError `stats.invalid_probability`
 * @see Fisher (1935), J. R. Stat. Soc. 98, 39–82; Kish (1965), Survey Sampling, chapter 6 (variance over clusters);
 *   Benjamini & Hochberg (1995), J. R. Stat. Soc. B 57, 289–300
 */
export function mechanisms(
  facts: TendencyPlays,
  flags: MechanismFlags,
  places: Int32Array,
  belongs: readonly Int8Array[],
  { confidence, level }: MechanismSettings,
): Mechanism[][] {
  const asked = belongs.map((of) =>
    MECHANISMS.flatMap((name) => {
      const [without, met] = countByRow(facts, places, of, flags[name]);
      if (met.known === 0) return [];
      return [{ name, with: plainCount(met), without: plainCount(without), pValue: pValueOf(met, without) }];
    }),
  );
  const tested = asked.flat().filter(({ pValue }) => pValue !== null);
  const { rejected } = benjaminiHochberg(
    tested.map(({ pValue }) => pValue ?? 1),
    level,
  );
  const established = new Set(tested.filter((_, at) => rejected[at] === true));
  return asked.map((ofAnswer) =>
    ofAnswer.map((one) => ({
      ...one,
      difference: differenceOf(one.with, one.without, confidence),
      established: established.has(one),
    })),
  );
}

interface ClusteredCount extends Counted {
  /** One a side of a game that has any. */
  readonly clusters: readonly Counted[];
}

function plainCount({ count, known }: Counted): Counted {
  return { count, known };
}

/** Counts of the plays that met another answer, and of those that met this one. */
function countByRow(
  { plays }: TendencyPlays,
  places: Int32Array,
  of: Int8Array,
  flag: Int8Array,
): readonly [ClusteredCount, ClusteredCount] {
  const rows = [0, 1].map(() => new Map<number, { count: number; known: number }>());
  for (const play of places) {
    const clusters = rows[of[play] ?? -1];
    const yes = flag[play] ?? -1;
    if (clusters === undefined || yes < 0) continue;
    const side = 2 * (plays.chartIndex[play] ?? 0) + (plays.offenseIsHome[play] ?? 0);
    const cluster = clusters.get(side) ?? { count: 0, known: 0 };
    clusters.set(side, cluster);
    cluster.known += 1;
    cluster.count += yes;
  }
  const summed = (at: number): ClusteredCount => {
    const clusters = [...(rows[at]?.values() ?? [])];
    return {
      count: clusters.reduce((sum, { count }) => sum + count, 0),
      known: clusters.reduce((sum, { known }) => sum + known, 0),
      clusters,
    };
  };
  return [summed(0), summed(1)];
}

/** One game cannot show how games differ. */
const FEWEST_GAMES = 2;

function pValueOf(met: ClusteredCount, without: ClusteredCount): number | null {
  if (met.clusters.length < FEWEST_GAMES || without.clusters.length < FEWEST_GAMES) return null;
  const exact = fisherExactTest([
    [met.count, met.known - met.count],
    [without.count, without.known - without.count],
  ]).twoSided;
  const pooled = (met.count + without.count) / (met.known + without.known);
  const variance = varianceOf(met, pooled) + varianceOf(without, pooled);
  if (variance === 0) return exact;
  const z = (met.count / met.known - without.count / without.known) / Math.sqrt(variance);
  return Math.max(exact, 2 * normalCdf(-Math.abs(z)));
}

/** Of a share: that of independent plays, or that between games where it is larger. */
function varianceOf({ count, known, clusters }: ClusteredCount, pooled: number): number {
  const games = clusters.length;
  const between = clusters.reduce((sum, cluster) => sum + (cluster.count - (count / known) * cluster.known) ** 2, 0);
  return Math.max((pooled * (1 - pooled)) / known, (games / (games - 1)) * (between / known ** 2));
}
