import { readDimension } from '../../tendencies/dimensions.js';
import type { DimensionCodes } from '../../tendencies/dimension-codes.js';
import type { AskedPlays, FieldPlays } from '../../tendencies/decisions/asked-plays.js';
import { snapsAndGames } from '../../tendencies/words/rests-on-words.js';
import type { Side } from '../../tendencies/tendency-plays.js';
import { DRIFTING } from './drifting-dimensions.js';

/** How much less plays say for coming from few games, each of which has a plan of its own. */
export interface LikenessOfGames {
  /** How alike the plays of one game are, beyond whose they are: 0 not at all, 1 all the same. */
  readonly likeness: number;
  /** Games with counting snaps of the player, and sides of games of everybody. */
  readonly games: number;
  readonly fieldGames: number;
}

/**
 * Read off everybody's games, which are many, where the player's few could not show it.
 *
 * @returns null where there is no field, or nobody in it has two games
 */
export function likenessOfGames(side: Side, asked: AskedPlays): LikenessOfGames | null {
  if (asked.field === null) return null;
  const ofField = fieldLikeness(side, asked.field, asked.vocabulary);
  return ofField === null ? null : { ...ofField, games: snapsAndGames(asked.facts).games };
}

type FieldLikeness = Omit<LikenessOfGames, 'games'>;

/** By the field's plays, which are one batch for as long as an archive stands, however many reports are made. */
const KNOWN = new WeakMap<FieldPlays['facts'], Map<Side, FieldLikeness | null>>();

/**
 * The variance between games of one player beside that within games, over all values of all calls together; once a field.
 *
 * @see Ridout, Demétrio & Firth (1999), Biometrics 55, 137–148 (analysis of variance estimator); Rao & Scott (1981), J. Am.
 *   Stat. Assoc. 76, 221–230 (one mean design effect for all cells)
 */
function fieldLikeness(side: Side, field: FieldPlays, vocabulary: AskedPlays['vocabulary']): FieldLikeness | null {
  const known = KNOWN.get(field.facts) ?? new Map<Side, FieldLikeness | null>();
  KNOWN.set(field.facts, known);
  const kept = known.get(side);
  if (kept !== undefined) return kept;
  const sums = { between: 0, betweenFreedom: 0, within: 0, withinFreedom: 0, sizes: 0 };
  const sides = sidesOfGames(field);
  for (const dimension of DRIFTING[side])
    addDimension(sums, field, sides, readDimension(dimension, field.facts, vocabulary));
  const [between, within] = [sums.between / sums.betweenFreedom, sums.within / sums.withinFreedom];
  const usualSize = sums.sizes / sums.betweenFreedom;
  const likeness = (between - within) / (between + (usualSize - 1) * within);
  const found = Number.isFinite(likeness)
    ? { likeness: Math.max(0, likeness), fieldGames: sides.byPlayer.reduce((sum, { length }) => sum + length, 0) }
    : null;
  known.set(side, found);
  return found;
}

/** The two sides of each chart are games of two players. */
interface SidesOfGames {
  readonly of: (play: number) => number;
  /** Sides that have counting snaps, player by player. */
  readonly byPlayer: readonly (readonly number[])[];
}

function sidesOfGames({ facts: { plays, counts }, playerOf }: FieldPlays): SidesOfGames {
  const of = (play: number): number => 2 * (plays.chartIndex[play] ?? 0) + (plays.offenseIsHome[play] ?? 0);
  const players = new Int32Array(2 * plays.charts.length).fill(-1);
  for (let play = 0; play < plays.count; play += 1) if (counts[play] === 1) players[of(play)] = playerOf[play] ?? -1;
  const byPlayer = new Map<number, number[]>();
  players.forEach((player, side) => {
    if (player < 0) return;
    const own = byPlayer.get(player) ?? [];
    byPlayer.set(player, own);
    own.push(side);
  });
  return { of, byPlayer: [...byPlayer.values()] };
}

/** What the variances are made of, over dimensions. */
interface VarianceSums {
  between: number;
  betweenFreedom: number;
  within: number;
  withinFreedom: number;
  sizes: number;
}

function addDimension(sums: VarianceSums, { facts }: FieldPlays, sides: SidesOfGames, read: DimensionCodes): void {
  const values = read.values.length;
  if (values < 2) return;
  const counts = new Int32Array(2 * facts.plays.charts.length * values);
  for (let play = 0; play < facts.plays.count; play += 1) {
    const code = read.codes[play] ?? -1;
    if (code < 0 || facts.counts[play] !== 1) continue;
    const cell = sides.of(play) * values + code;
    counts[cell] = (counts[cell] ?? 0) + 1;
  }
  for (const own of sides.byPlayer) {
    const games = own.map((side) => counts.subarray(side * values, (side + 1) * values));
    addPlayer(
      sums,
      games.filter((game) => game.some((count) => count > 0)),
      values,
    );
  }
}

function addPlayer(sums: VarianceSums, games: readonly Int32Array[], values: number): void {
  if (games.length < 2) return;
  const sizes = games.map((counts) => counts.reduce((sum, count) => sum + count, 0));
  const known = sizes.reduce((sum, size) => sum + size, 0);
  for (let value = 0; value < values; value += 1) {
    const share = games.reduce((sum, counts) => sum + (counts[value] ?? 0), 0) / known;
    games.forEach((counts, game) => {
      const size = sizes[game] ?? 0;
      const ofGame = (counts[value] ?? 0) / size;
      sums.between += size * (ofGame - share) ** 2;
      sums.within += size * ofGame * (1 - ofGame);
    });
  }
  sums.betweenFreedom += games.length - 1;
  sums.withinFreedom += known - games.length;
  sums.sizes += known - sizes.reduce((sum, size) => sum + size ** 2, 0) / known;
}
