import { UNKNOWN_POINTS } from '../football/expected-points-added.js';
import { bracketedRoot } from '../statistics/bracketed-root.js';
import { expectedBySituation, type CodedPlays, type SituationMeans } from './coded-plays.js';

/** How good players are, as they come out of the games between them. */
export interface PlayerEffects {
  /** One a player: what the player adds with the ball. */
  readonly offense: Float64Array;
  /** One a player: what offenses gain more against this defense. */
  readonly defense: Float64Array;
  /** One a side of a game: both players' effects and that of the day. */
  readonly byGameSide: Float64Array;
  readonly offenseVariance: number;
  readonly defenseVariance: number;
  readonly gameVariance: number;
}

const SWEEPS = 4;
/** A cell's raw mean counts for this many plays less than it has, so that a thin one takes no player's part away. */
const CELL_DRAG = 20;

/**
 * Offense, defense and day taken out of an archive too large for one set of equations: what a play gave beyond its call
 * and answer, by sides of games, divided by turns between who had the ball, who defended and the day, each drawn to 0 by
 * its own variance (Paule and Mandel's, which is the restricted maximum likelihood one where groups are alike).
 *
 * Each is fitted with the others held as they stand, so that their uncertainty is left out; with hundreds of plays a
 * player that is small. A test compares it with the equations solved together.
 *
 * @param cellCounts - plays by call x answer, and in `cellSums` their outcomes less the mean of the situation
 * @see Paule & Mandel (1982), J. Res. Natl. Bur. Stand. 87, 377–385; Breiman & Friedman (1985), J. Am. Stat. Assoc. 80,
 *   580–598 (fitting by turns)
 */
export function playerEffects(
  coded: CodedPlays,
  outcome: Float64Array,
  means: SituationMeans,
  cellCounts: Float64Array,
  cellSums: Float64Array,
): PlayerEffects {
  const { players, gameSides } = coded;
  const sides = sumsByGameSide(coded, outcome, means, cellCounts, cellSums);
  const [offense, defense] = [new Float64Array(players), new Float64Array(players)];
  const day = new Float64Array(gameSides);
  let [offenseVariance, defenseVariance, gameVariance] = [0, 0, 0];
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    offenseVariance = drawn(offense, sides, sides.offense, sides.defense, defense, day);
    defenseVariance = drawn(defense, sides, sides.defense, sides.offense, offense, day);
    gameVariance = drawnDays(day, sides, offense, defense);
  }
  const byGameSide = Float64Array.from(
    day,
    (effect, side) => effect + (offense[sides.offense[side] ?? -1] ?? 0) + (defense[sides.defense[side] ?? -1] ?? 0),
  );
  return { offense, defense, byGameSide, offenseVariance, defenseVariance, gameVariance };
}

interface GameSideSums {
  readonly counts: Float64Array;
  readonly sums: Float64Array;
  readonly offense: Int32Array;
  readonly defense: Int32Array;
  readonly residual: number;
}

function sumsByGameSide(
  { call, answer, answers, situation, gameSide, gameSides, offense, defense }: CodedPlays,
  outcome: Float64Array,
  means: SituationMeans,
  cellCounts: Float64Array,
  cellSums: Float64Array,
): GameSideSums {
  const [counts, sums] = [new Float64Array(gameSides), new Float64Array(gameSides)];
  const [ofOffense, ofDefense] = [new Int32Array(gameSides).fill(-1), new Int32Array(gameSides).fill(-1)];
  const expected = cellSums.map((sum, cell) => sum / ((cellCounts[cell] ?? 0) + CELL_DRAG));
  let [squares, plays] = [0, 0];
  for (let play = 0; play < outcome.length; play += 1) {
    const value = outcome[play] ?? UNKNOWN_POINTS;
    const [one, other] = [call[play] ?? -1, answer[play] ?? -1];
    if (value === UNKNOWN_POINTS || one < 0 || other < 0) continue;
    const rest = value - expectedBySituation(means, situation[play] ?? -1) - (expected[one * answers + other] ?? 0);
    const side = gameSide[play] ?? 0;
    counts[side] = (counts[side] ?? 0) + 1;
    sums[side] = (sums[side] ?? 0) + rest;
    ofOffense[side] = offense[play] ?? -1;
    ofDefense[side] = defense[play] ?? -1;
    squares += rest * rest;
    plays += 1;
  }
  return { counts, sums, offense: ofOffense, defense: ofDefense, residual: squares / Math.max(1, plays) };
}

/** Draws one kind of player's effects anew, the others' held; answers with their variance. */
function drawn(
  effects: Float64Array,
  { counts, sums, residual }: GameSideSums,
  whose: Int32Array,
  others: Int32Array,
  otherEffects: Float64Array,
  day: Float64Array,
): number {
  const [plays, rest] = [new Float64Array(effects.length), new Float64Array(effects.length)];
  for (let side = 0; side < counts.length; side += 1) {
    const player = whose[side] ?? -1;
    if (player < 0) continue;
    const count = counts[side] ?? 0;
    const taken = (otherEffects[others[side] ?? -1] ?? 0) + (day[side] ?? 0);
    plays[player] = (plays[player] ?? 0) + count;
    rest[player] = (rest[player] ?? 0) + (sums[side] ?? 0) - count * taken;
  }
  return shrink(effects, plays, rest, residual);
}

function drawnDays(day: Float64Array, sides: GameSideSums, offense: Float64Array, defense: Float64Array): number {
  const rest = sides.sums.map(
    (sum, side) =>
      sum -
      (sides.counts[side] ?? 0) *
        ((offense[sides.offense[side] ?? -1] ?? 0) + (defense[sides.defense[side] ?? -1] ?? 0)),
  );
  return shrink(day, sides.counts, rest, sides.residual);
}

/** Writes each group's mean, drawn to 0; answers with the variance between groups. */
function shrink(effects: Float64Array, counts: Float64Array, sums: Float64Array, residual: number): number {
  const groups = counts.reduce((sum, count) => sum + (count > 0 ? 1 : 0), 0);
  // Around 0 and not around a mean of their own: the mean is the calls' to tell.
  const excess = (variance: number): number => {
    let sum = -groups;
    for (let group = 0; group < counts.length; group += 1) {
      const count = counts[group] ?? 0;
      if (count > 0) sum += ((sums[group] ?? 0) / count) ** 2 / (variance + residual / count);
    }
    return sum;
  };
  let variance = 0;
  if (groups > 1 && residual > 0 && excess(0) > 0) {
    let high = residual;
    while (excess(high) > 0) high *= 4;
    variance = bracketedRoot(excess, 0, high, 1e-9 * residual);
  }
  for (let group = 0; group < effects.length; group += 1) {
    const count = counts[group] ?? 0;
    effects[group] = variance === 0 ? 0 : (sums[group] ?? 0) / (count + residual / variance);
  }
  return variance;
}
