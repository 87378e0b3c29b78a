import { drawDirichlet } from '../statistics/draw-dirichlet.js';
import { assertOpenUnit } from '../statistics/guards.js';
import type { Interval } from '../statistics/interval.js';
import { seededRandom } from '../statistics/seeded-random.js';
import type { Payoffs } from './matrix-game.js';
import { dominatedRows, equilibrium, gainsByColumn, leaning, type DominatedRow, type Equilibrium } from './zero-sum.js';

/** What is known of a game: our gain in each meeting of one of our calls and one of theirs. */
export interface MixGame {
  /** Posterior means, ours x theirs, in points a play. */
  readonly payoffs: Payoffs;
  /** Seeded posterior draws of the same, drawn jointly: ours x theirs x draws. */
  readonly draws: readonly (readonly Float64Array[])[];
  /** Dirichlet parameters of the shares with which they call: plays seen and what the field adds; each > 0. */
  readonly theirAlpha: readonly number[];
}

/** One place of the dial between safe and bold. */
export interface DialStop {
  /** 0 safe: holds whatever they do; 1 bold: the best against what they do now. */
  readonly lean: number;
  /** One a call of ours, adding up to 1. */
  readonly shares: readonly number[];
  /** Our gain a play if they stay as they are, with the posterior's interval. */
  readonly ifTheyStay: { readonly mean: number; readonly interval: Interval };
  /** Our gain if they adjust as well as they can to this mix. */
  readonly ifTheyAdjust: {
    readonly mean: number;
    /** The call of theirs that does it, by posterior means; of several that do alike the first of theirs. */
    readonly call: number;
    /** What it holds with: the lower quantile of the mix's worst case over the draws. */
    readonly guarantee: number;
  };
}

export interface CallMix {
  /** Of the posterior means. */
  readonly equilibrium: Equilibrium;
  /** Shares with which they are thought to call. */
  readonly theirShares: readonly number[];
  /** Our single best call against those shares. */
  readonly bestResponse: number;
  /** Safe first. */
  readonly dial: readonly DialStop[];
  /** Calls of ours that another, or the equilibrium's mix, beats whatever they call. */
  readonly dominated: readonly DominatedRow[];
}

export interface MixSettings {
  /** Of the interval, in (0, 1); the guarantee is its lower tail: 0.9 guarantees with 95 %. */
  readonly confidence: number;
  /** Of the draws of their shares. */
  readonly seed: number;
}

/** Between safe and bold. A choice, no source. */
const LEANS = [1 / 3, 2 / 3];

/**
 * How many posterior standard deviations payoffs are marked down by when a safe mix is looked for. Solving on means alone
 * trusts the most flattering cells; of these the mix is kept whose guarantee is best on one half of the draws, and the
 * guarantee that is stated comes from the other half.
 */
const CAUTIONS = [0, 0.5, 1];

/** A mix that holds several calls of theirs alike leaves them apart by rounding only. */
const LEVEL = 1e-9;

/** The places of the dial. */
export const DIAL: readonly number[] = [0, ...LEANS, 1];

/**
 * The mix of our calls: safe, bold and between. Each mix is fixed first and scored on the draws then, so that its
 * guarantee holds for the mix as called and not for one that would be solved again in hindsight.
 *
 * @param game - at least 1 x 1, and at least four draws
 * @throws DomainError `stats.invalid_shape`, `stats.invalid_number`, `stats.invalid_probability`, `stats.no_convergence`
 * @see zero-sum.ts; decisions in docs/reference/answers.md
 */
export function callMix(game: MixGame, settings: MixSettings): CallMix {
  const faced = facing(game, settings);
  const solved = equilibrium(game.payoffs);
  return {
    equilibrium: solved,
    theirShares: faced.theirShares,
    bestResponse: faced.bestResponse,
    dial: DIAL.map((lean) => stopAt(faced, lean, solved)),
    dominated: dominatedRows(game.payoffs, solved.rows),
  };
}

/**
 * One place of the dial alone, as `callMix` has it.
 *
 * @param lean - one of DIAL
 * @throws DomainError as `callMix`
 */
export function dialStop(
  game: MixGame,
  lean: number,
  settings: MixSettings,
): Pick<CallMix, 'theirShares'> & { readonly stop: DialStop } {
  const faced = facing(game, settings);
  return { theirShares: faced.theirShares, stop: stopAt(faced, lean, null) };
}

/** A game with what it is scored on. */
interface Facing extends Pick<CallMix, 'theirShares' | 'bestResponse'> {
  readonly game: MixGame;
  readonly settings: MixSettings;
  readonly drawn: DrawnGame;
}

function facing(game: MixGame, settings: MixSettings): Facing {
  assertOpenUnit('confidence', settings.confidence);
  const { payoffs, theirAlpha } = game;
  const total = theirAlpha.reduce((sum, alpha) => sum + alpha, 0);
  const theirShares = theirAlpha.map((alpha) => alpha / total);
  const expected = payoffs.map((row) => dot(row, theirShares));
  const bestResponse = expected.indexOf(Math.max(...expected));
  return { game, settings, theirShares, bestResponse, drawn: drawnGame(game, settings.seed) };
}

/** @param solved - the equilibrium, where it is there already */
function stopAt(faced: Facing, lean: number, solved: Equilibrium | null): DialStop {
  const { game, settings, theirShares, bestResponse, drawn } = faced;
  const { payoffs } = game;
  const half = Math.floor(drawn.count / 2);
  const tail = (1 - settings.confidence) / 2;
  const shares =
    lean === 0
      ? safest(faced, solved ?? equilibrium(payoffs))
      : lean === 1
        ? payoffs.map((_, row) => (row === bestResponse ? 1 : 0))
        : leaning(payoffs, theirShares, lean);
  const byColumn = gainsByColumn(payoffs, shares);
  const worst = Math.min(...byColumn);
  const gains = drawnGains(drawn, shares, 0, drawn.count);
  return {
    lean,
    shares,
    ifTheyStay: {
      mean: dot(byColumn, theirShares),
      interval: quantiles(stayed(drawn, gains), tail),
    },
    ifTheyAdjust: {
      mean: worst,
      call: byColumn.findIndex((gain) => gain <= worst + LEVEL),
      guarantee: guarantee(
        gains.map((ofCall) => ofCall.subarray(half)),
        tail,
      ),
    },
  };
}

/** Of the mixes solved with more and less caution the one whose guarantee is best on the first half of the draws. */
function safest({ game, settings, drawn }: Facing, solved: Equilibrium): readonly number[] {
  const half = Math.floor(drawn.count / 2);
  const tail = (1 - settings.confidence) / 2;
  const spreads = deviations(game);
  const marked = (caution: number): Payoffs =>
    game.payoffs.map((row, ours) => row.map((gain, theirs) => gain - caution * (spreads[ours]?.[theirs] ?? 0)));
  const scored = CAUTIONS.map((caution) => {
    const mix = caution === 0 ? solved.rows : equilibrium(marked(caution)).rows;
    return { mix, holds: guarantee(drawnGains(drawn, mix, 0, half), tail) };
  });
  return scored.reduce((best, one) => (one.holds > best.holds ? one : best)).mix;
}

interface DrawnGame {
  readonly draws: MixGame['draws'];
  readonly count: number;
  /** Of each call of theirs its share, draw by draw. */
  readonly shares: readonly Float64Array[];
}

function drawnGame({ draws, theirAlpha }: MixGame, seed: number): DrawnGame {
  const random = seededRandom(seed);
  const count = draws[0]?.[0]?.length ?? 0;
  const shares = theirAlpha.map(() => new Float64Array(count));
  for (let draw = 0; draw < count; draw += 1) {
    const drawn = drawDirichlet(random, theirAlpha);
    for (let theirs = 0; theirs < drawn.length; theirs += 1) {
      const own = shares[theirs];
      if (own !== undefined) own[draw] = drawn[theirs] ?? 0;
    }
  }
  return { draws, count, shares };
}

/** Gain of a mix against each call of theirs, over the draws from one to another. */
function drawnGains({ draws, shares }: DrawnGame, mix: readonly number[], from: number, to: number): Float64Array[] {
  return shares.map((_, theirs) => {
    const gains = new Float64Array(to - from);
    for (let ours = 0; ours < mix.length; ours += 1) {
      const share = mix[ours] ?? 0;
      const drawn = draws[ours]?.[theirs];
      if (share === 0 || drawn === undefined) continue;
      for (let at = 0; at < gains.length; at += 1) gains[at] = (gains[at] ?? 0) + share * (drawn[from + at] ?? 0);
    }
    return gains;
  });
}

/** The lower quantile of a mix's worst case over some draws. */
function guarantee(gains: readonly Float64Array[], tail: number): number {
  const worst = new Float64Array(gains[0]?.length ?? 0).fill(Infinity);
  for (const ofCall of gains) {
    for (let at = 0; at < worst.length; at += 1) worst[at] = Math.min(worst[at] ?? 0, ofCall[at] ?? 0);
  }
  return quantile(worst.sort(), tail);
}

function stayed({ count, shares }: DrawnGame, gains: readonly Float64Array[]): Float64Array {
  const total = new Float64Array(count);
  for (const [theirs, ofCall] of gains.entries()) {
    const share = shares[theirs];
    for (let draw = 0; draw < count; draw += 1) {
      total[draw] = (total[draw] ?? 0) + (share?.[draw] ?? 0) * (ofCall[draw] ?? 0);
    }
  }
  return total;
}

function deviations({ draws, payoffs }: MixGame): number[][] {
  return draws.map((row, ours) =>
    row.map((values, theirs) => {
      const mean = payoffs[ours]?.[theirs] ?? 0;
      let squares = 0;
      // Counted down, since a typed array is walked through several times slower.
      for (let left = values.length; left > 0; left -= 1) squares += ((values[left - 1] ?? 0) - mean) ** 2;
      return Math.sqrt(squares / Math.max(1, values.length));
    }),
  );
}

function quantiles(values: Float64Array, tail: number): Interval {
  const sorted = values.sort();
  return { lower: quantile(sorted, tail), upper: quantile(sorted, 1 - tail) };
}

/** By linear interpolation between order statistics: Hyndman & Fan (1996), Am. Stat. 50, 361–365, definition 7. */
function quantile(sorted: Float64Array, probability: number): number {
  const at = (sorted.length - 1) * probability;
  const [low, high] = [sorted[Math.floor(at)] ?? 0, sorted[Math.ceil(at)] ?? 0];
  return low + (high - low) * (at - Math.floor(at));
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, place) => sum + value * (other[place] ?? 0), 0);
}
