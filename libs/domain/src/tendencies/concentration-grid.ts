import { concentrationAroundEstimate, effectiveFieldPlays, fieldMean } from './field-mean.js';

/** Players' counts in one cell. */
export interface CellCounts {
  /** Values, ≥ 2. */
  readonly columns: number;
  /** Players × values, flat, integers ≥ 0. */
  readonly counts: Int32Array;
  /** The same players and values over all snaps. */
  readonly overall: Int32Array;
}

const SMALLEST = 0.25;
const LARGEST = 4096;

/**
 * Concentrations a factor of √2 apart, ascending from 1/4.
 *
 * @param plays - the grid ends here, since a prior cannot know more than what it was learned from
 */
export function concentrationGrid(plays: number): readonly number[] {
  const grid = [SMALLEST];
  for (let next = SMALLEST * Math.SQRT2; next <= Math.min(LARGEST, plays); next *= Math.SQRT2) grid.push(next);
  return grid;
}

/**
 * How well each concentration foretells each player of a cell from the others: players who have at least two plays in
 * it, since fewer say nothing of a concentration, each around the mean of the others and with that mean's own
 * uncertainty, exactly as a profile will use it. Around a mean that holds the player too, six players look alike
 * whatever they do.
 *
 * @param cell - counts
 * @param grid - concentrations, each > 0
 * @returns players × concentrations, flat: logarithm of the Dirichlet-multinomial probability, without coefficients
 * @see Mosimann (1962), Biometrika 49, 65–82; Stone (1974), J. R. Stat. Soc. B 36, 111–147 (leaving one out)
 */
export function gridEvidence({ columns, counts, overall }: CellCounts, grid: readonly number[]): Float64Array {
  const players = counts.length / columns;
  const totals = columnSums(counts, columns);
  const overallTotals = columnSums(overall, columns);
  const sizes = rowSums(counts, columns);
  const plays = sizes.reduce((sum, size) => sum + size, 0);
  const squares = sizes.reduce((sum, size) => sum + size * size, 0);
  const evidence: number[] = [];
  for (let player = 0; player < players; player += 1) {
    const size = sizes[player] ?? 0;
    if (size < 2) continue;
    const row = counts.subarray(player * columns, (player + 1) * columns);
    const overallRow = overall.subarray(player * columns, (player + 1) * columns);
    const others = totals.map((total, value) => total - (row[value] ?? 0));
    const mean = fieldMean(
      others,
      overallTotals.map((total, value) => total - (overallRow[value] ?? 0)),
      columns,
    );
    const used = [...row.keys()].filter((value) => (row[value] ?? 0) > 0);
    const field = { plays: plays - size, squares: squares - size * size };
    for (const concentration of grid) {
      const around = concentrationAroundEstimate(concentration, effectiveFieldPlays(field, 1 / (concentration + 1)));
      evidence.push(logEvidence(row, used, mean, around));
    }
  }
  return Float64Array.from(evidence);
}

const LARGE = 1e250;
const SMALL = 1e-250;

/** Rising factorials as plain products, with one logarithm for some dozens of factors: most of a fit's time is here. */
function logEvidence(counts: Int32Array, used: readonly number[], mean: Float64Array, concentration: number): number {
  let sum = 0;
  let product = 1;
  let steps = 0;
  for (const value of used) {
    const start = concentration * (mean[value] ?? 0);
    const count = counts[value] ?? 0;
    for (let step = 0; step < count; step += 1) {
      // Each factor is a play of the numerator over one of the denominator, so that the product stays near 1.
      product *= (start + step) / (concentration + steps);
      steps += 1;
      if (product < SMALL || product > LARGE) {
        sum += Math.log(product);
        product = 1;
      }
    }
  }
  return sum + Math.log(product);
}

function columnSums(counts: Int32Array, columns: number): Int32Array {
  const sums = new Int32Array(columns);
  for (let at = 0; at < counts.length; at += 1) {
    const value = at % columns;
    sums[value] = (sums[value] ?? 0) + (counts[at] ?? 0);
  }
  return sums;
}

function rowSums(counts: Int32Array, columns: number): Int32Array {
  const sums = new Int32Array(counts.length / columns);
  for (let player = 0; player < sums.length; player += 1) {
    let sum = 0;
    for (let value = 0; value < columns; value += 1) sum += counts[player * columns + value] ?? 0;
    sums[player] = sum;
  }
  return sums;
}
