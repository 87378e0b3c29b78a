import { UNKNOWN_NUMBER } from '../charting/play-columns.js';
import { choiceMask } from '../football/play-masks.js';
import { benjaminiHochberg } from '../statistics/benjamini-hochberg.js';
import type { Interval } from '../statistics/interval.js';
import { normalCdf } from '../statistics/distributions.js';
import { fisherTails } from '../statistics/fisher-exact-test.js';
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
  /** Two-sided, with games and players as clusters; null where nothing can be said. */
  readonly pValue: number | null;
  /** Whether it stands once all that was asked about is taken together (Benjamini-Hochberg). It went with the answer. */
  readonly established: boolean;
}

export interface MechanismSettings {
  readonly confidence: number;
  /** False discovery rate over all answers and mechanisms asked about, in (0, 1). */
  readonly level: number;
}

/**
 * Of one question. A report asks six of them: at 0.05 one report in ten had something false in a large archive in which
 * neither players nor days make a difference, where the tests are least cautious.
 */
export const MECHANISM_LEVEL = 0.03;

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
    'no gain or a loss': flagsOf(yards.length, (play) => {
      const gain = yards[play] ?? UNKNOWN_NUMBER;
      return gain === UNKNOWN_NUMBER ? -1 : gain <= 0 ? 1 : 0;
    }),
    'explosive play': facts.explosive,
  };
}

function either(yes: Uint8Array, no: Uint8Array): Int8Array {
  return flagsOf(yes.length, (play) => (yes[play] === 1 ? 1 : no[play] === 1 ? 0 : -1));
}

/** A plain loop: typed arrays are mapped several times slower, and a batch can be a whole archive. */
function flagsOf(plays: number, flagOf: (play: number) => number): Int8Array {
  const flags = new Int8Array(plays);
  for (let play = 0; play < plays; play += 1) flags[play] = flagOf(play);
  return flags;
}

/** Which plays share more than chance: one cluster a play of the batch. */
export interface Clustering {
  readonly of: Int32Array;
  /** Every number is from 0 to this less one. */
  readonly clusters: number;
}

/**
 * What moved with each answer to one call: rates with it against rates with other answers. The p-value is the larger one
 * of Fisher's exact test, for few plays, and of the difference over its error between clusters, of the ways to form them
 * the one that gives most: plays of one game share its day, and those of one player, over many games, who plays them.
 * Defenses choose their answers, so this is what went with an answer and not what it did.
 *
 * @param clusterings - sides of games first
 * @param seen        - plays of the call in the batch on which the answer was seen, ascending
 * @param met         - for each answer asked about the plays that met it
 * @returns for each answer its mechanisms, those known on no play left out
 * @throws DomainError `stats.invalid_probability`
 * @see Fisher (1935), J. R. Stat. Soc. 98, 39–82; Kish (1965), Survey Sampling, chapter 6 (variance over clusters);
 *   Benjamini & Hochberg (1995), J. R. Stat. Soc. B 57, 289–300
 */
export function mechanisms(
  clusterings: readonly [Clustering, ...Clustering[]],
  flags: MechanismFlags,
  seen: Int32Array,
  met: readonly Int32Array[],
  { confidence, level }: MechanismSettings,
): Mechanism[][] {
  const asked: Asked[][] = met.map(() => []);
  for (const name of MECHANISMS) {
    // Summed once, and for each answer only what it takes away.
    const sums = clusterings.map((clustering) => {
      const all = new ClusterSums(flags[name], clustering);
      all.add(seen);
      return { all, own: new ClusterSums(flags[name], clustering), total: all.summed() };
    });
    met.forEach((plays, answer) => {
      const split = sums.map(({ all, own, total }) => {
        own.clear();
        own.add(plays);
        return { own, without: all.without(own, total) };
      });
      const [games] = split;
      if (games === undefined || games.own.known === 0) return;
      asked[answer]?.push({
        name,
        with: plainCount(games.own),
        without: plainCount(games.without),
        pValue: pValueOf(
          split.map(({ own }) => own),
          split.map(({ without }) => without),
        ),
      });
    });
  }
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

type Asked = Omit<Mechanism, 'difference' | 'established'>;

/** What a share and its variance over clusters are computed from. */
interface ClusteredCount extends Counted {
  /** Clusters that have any. */
  readonly clusters: number;
  /** Over those: squared counts, counts times known, squared known. */
  readonly squares: number;
  readonly products: number;
  readonly sizes: number;
}

function plainCount({ count, known }: Counted): Counted {
  return { count, known };
}

/** Counts by cluster, kept so that some of them can be taken away again. */
class ClusterSums implements ClusteredCount {
  count = 0;
  known = 0;
  readonly #counts: Int32Array;
  readonly #knowns: Int32Array;
  readonly #touched: number[] = [];

  constructor(
    private readonly flag: Int8Array,
    private readonly clustering: Clustering,
  ) {
    this.#counts = new Int32Array(clustering.clusters);
    this.#knowns = new Int32Array(clustering.clusters);
  }

  add(places: Int32Array): void {
    const { of } = this.clustering;
    for (const play of places) {
      const yes = this.flag[play] ?? -1;
      if (yes < 0) continue;
      const cluster = of[play] ?? 0;
      if (this.#knowns[cluster] === 0) this.#touched.push(cluster);
      this.#knowns[cluster] = (this.#knowns[cluster] ?? 0) + 1;
      this.#counts[cluster] = (this.#counts[cluster] ?? 0) + yes;
      this.known += 1;
      this.count += yes;
    }
  }

  clear(): void {
    for (const cluster of this.#touched) {
      this.#knowns[cluster] = 0;
      this.#counts[cluster] = 0;
    }
    this.#touched.length = 0;
    this.count = 0;
    this.known = 0;
  }

  get clusters(): number {
    return this.#touched.length;
  }

  get squares(): number {
    return this.#sum((count) => count * count);
  }

  get products(): number {
    return this.#sum((count, known) => count * known);
  }

  get sizes(): number {
    return this.#sum((_, known) => known * known);
  }

  summed(): ClusteredCount {
    const { count, known, clusters, squares, products, sizes } = this;
    return { count, known, clusters, squares, products, sizes };
  }

  /** These less some of them. @param total - these, summed */
  without(part: ClusterSums, total: ClusteredCount): ClusteredCount {
    let { clusters, squares, products, sizes } = total;
    for (const cluster of part.#touched) {
      const [count, known] = [this.#counts[cluster] ?? 0, this.#knowns[cluster] ?? 0];
      const [left, leftKnown] = [count - (part.#counts[cluster] ?? 0), known - (part.#knowns[cluster] ?? 0)];
      if (leftKnown === 0) clusters -= 1;
      squares += left * left - count * count;
      products += left * leftKnown - count * known;
      sizes += leftKnown * leftKnown - known * known;
    }
    return { count: this.count - part.count, known: this.known - part.known, clusters, squares, products, sizes };
  }

  #sum(of: (count: number, known: number) => number): number {
    let sum = 0;
    for (const cluster of this.#touched) sum += of(this.#counts[cluster] ?? 0, this.#knowns[cluster] ?? 0);
    return sum;
  }
}

/** One game cannot show how games differ. */
const FEWEST_GAMES = 2;

/** @param mets - and the others: one a clustering, sides of games first */
function pValueOf(mets: readonly ClusteredCount[], others: readonly ClusteredCount[]): number | null {
  const [met, without] = [mets[0], others[0]];
  if (met === undefined || without === undefined) return null;
  if (met.clusters < FEWEST_GAMES || without.clusters < FEWEST_GAMES) return null;
  const pooled = (met.count + without.count) / (met.known + without.known);
  const variance = varianceOf(mets, pooled) + varianceOf(others, pooled);
  const z = variance === 0 ? 0 : (met.count / met.known - without.count / without.known) / Math.sqrt(variance);
  const byClusters = 2 * normalCdf(-Math.abs(z));
  // Fisher's work grows with the plays; where both groups are large the difference over its error says as much.
  if (Math.min(met.known, without.known) > ENOUGH_FOR_NORMAL) return byClusters;
  const exact = fisherTails([
    [met.count, met.known - met.count],
    [without.count, without.known - without.count],
  ]).twoSided;
  return Math.max(exact, byClusters);
}

const ENOUGH_FOR_NORMAL = 200;

/** Of a share: that of independent plays, or the largest between clusters where it is larger. */
function varianceOf(clustered: readonly ClusteredCount[], pooled: number): number {
  const variances = clustered.map(({ count, known, clusters, squares, products, sizes }) => {
    const share = count / known;
    const between = Math.max(0, squares - 2 * share * products + share * share * sizes);
    // One cluster cannot show how clusters differ.
    const correction = clusters > 1 ? clusters / (clusters - 1) : 0;
    return Math.max((pooled * (1 - pooled)) / known, correction * (between / known ** 2));
  });
  return Math.max(...variances);
}
