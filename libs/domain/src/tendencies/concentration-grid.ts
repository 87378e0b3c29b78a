/** How well each concentration of a grid explains each player. */
export interface ConcentrationGrid {
  /** Ascending, a factor of √2 apart, from 1/4 to at most the plays of all players. */
  readonly concentrations: readonly number[];
  /** Players with at least two plays: fewer say nothing of a concentration. */
  readonly players: number;
  /** Players × concentrations, flat: logarithm of the Dirichlet-multinomial probability, without coefficients. */
  readonly evidence: Float64Array;
}

const SMALLEST = 0.25;
const LARGEST = 4096;

/**
 * The logarithm of Γ(a + n) / Γ(a) is a running sum of logarithms; kept as a table for each value and concentration, a
 * player costs as many look-ups as values used.
 *
 * @param counts  - players × values, flat, integers ≥ 0
 * @param columns - values
 * @param mean    - share of each value, each > 0, adding up to 1
 * @see Minka (2000, rev. 2012), Estimating a Dirichlet distribution, section 4
 */
export function concentrationGrid(counts: Int32Array, columns: number, mean: readonly number[]): ConcentrationGrid {
  const { sizes, starts, values, tallies, largest, largestSize, plays } = usedValues(counts, columns);
  const players = sizes.length;
  const concentrations: number[] = [];
  for (let concentration = SMALLEST; concentration <= LARGEST; concentration *= Math.SQRT2) {
    // A prior cannot know more than what it was learned from.
    if (concentrations.length > 0 && concentration > plays) break;
    concentrations.push(concentration);
  }

  const evidence = new Float64Array(players * concentrations.length);
  const sizeTable = new Float64Array(largestSize + 1);
  const tables = Array.from(largest, (most) => new Float64Array(most + 1));
  concentrations.forEach((concentration, place) => {
    fillRising(sizeTable, concentration);
    tables.forEach((table, value) => {
      fillRising(table, concentration * (mean[value] ?? 0));
    });
    for (let player = 0; player < players; player += 1) {
      let sum = -(sizeTable[sizes[player] ?? 0] ?? 0);
      const end = starts[player + 1] ?? 0;
      for (let at = starts[player] ?? 0; at < end; at += 1) {
        sum += tables[values[at] ?? 0]?.[tallies[at] ?? 0] ?? 0;
      }
      evidence[player * concentrations.length + place] = sum;
    }
  });
  return { concentrations, players, evidence };
}

/** table[n] = ln Γ(start + n) - ln Γ(start). */
function fillRising(table: Float64Array, start: number): void {
  let sum = 0;
  for (let count = 1; count < table.length; count += 1) {
    sum += Math.log(start + count - 1);
    table[count] = sum;
  }
}

interface UsedValues {
  readonly sizes: readonly number[];
  /** Player i used values[starts[i]] up to, not including, values[starts[i + 1]], tallies[...] times each. */
  readonly starts: readonly number[];
  readonly values: readonly number[];
  readonly tallies: readonly number[];
  readonly largest: Int32Array;
  readonly largestSize: number;
  readonly plays: number;
}

function usedValues(counts: Int32Array, columns: number): UsedValues {
  const sizes: number[] = [];
  const starts = [0];
  const values: number[] = [];
  const tallies: number[] = [];
  const largest = new Int32Array(columns);
  let largestSize = 0;
  let plays = 0;
  for (let row = 0; row < counts.length; row += columns) {
    let size = 0;
    for (let value = 0; value < columns; value += 1) size += counts[row + value] ?? 0;
    plays += size;
    if (size < 2) continue;
    for (let value = 0; value < columns; value += 1) {
      const tally = counts[row + value] ?? 0;
      if (tally === 0) continue;
      values.push(value);
      tallies.push(tally);
      largest[value] = Math.max(largest[value] ?? 0, tally);
    }
    sizes.push(size);
    starts.push(values.length);
    largestSize = Math.max(largestSize, size);
  }
  return { sizes, starts, values, tallies, largest, largestSize, plays };
}
