/** Contexts from the widest to the narrowest: each play's place in each, -1 where it cannot be told. */
export interface NestedOrder {
  readonly name: string;
  readonly levels: readonly Int32Array[];
}

export interface NestedFacts {
  readonly game: Int32Array;
  /** Ascending places of the plays with a known outcome. */
  readonly rows: Int32Array;
  readonly outcome: Int32Array;
  readonly classes: number;
  /** Games from this one on are forecast and teach nothing. */
  readonly untilGame: number;
}

/** Weight in plays that a context gives to the one around it: tried from few to many. */
const CONCENTRATIONS = [2, 5, 12, 30, 75, 200];
const FIRST_GUESS = 30;
const SWEEPS = 2;

/**
 * How many plays' worth each context is drawn towards the one around it, level by level: what forecasts best when every
 * play is forecast from the games before its own.
 *
 * @returns one concentration a level
 * @see Dawid (1984), J. R. Stat. Soc. A 147, 278–292, for judging by forecasts of what comes next
 */
export function fitConcentrations(facts: NestedFacts, order: NestedOrder): readonly number[] {
  const concentrations = order.levels.map(() => FIRST_GUESS);
  const shares = new Float64Array(facts.game.length * facts.classes);
  let best = forecastInTurn(facts, order, concentrations, shares);
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    order.levels.forEach((_, level) => {
      const kept = concentrations[level] ?? FIRST_GUESS;
      let winner = kept;
      for (const tried of CONCENTRATIONS) {
        if (tried === kept) continue;
        concentrations[level] = tried;
        const loss = forecastInTurn(facts, order, concentrations, shares);
        if (loss < best) {
          best = loss;
          winner = tried;
        }
      }
      concentrations[level] = winner;
    });
  }
  return concentrations;
}

/**
 * Shares by nested Dirichlet smoothing: each context's shares are drawn towards those of the context around it, the
 * widest towards those of all plays. A context that cannot be told is skipped. Every play is forecast from the games
 * before its own, so that whatever learns from these shares sees what would have been known.
 *
 * @returns plays x classes, filled at `rows`
 * @see MacKay & Peto (1995), Nat. Lang. Eng. 1, 289–308
 */
export function nestedShares(facts: NestedFacts, order: NestedOrder, concentrations: readonly number[]): Float64Array {
  const shares = new Float64Array(facts.game.length * facts.classes);
  forecastInTurn(facts, order, concentrations, shares);
  return shares;
}

/** @returns mean log loss over the games that teach */
function forecastInTurn(
  { game, rows, outcome, classes, untilGame }: NestedFacts,
  { levels }: NestedOrder,
  concentrations: readonly number[],
  shares: Float64Array,
): number {
  const totals = levels.map((keys) => new Float64Array(topOf(keys) + 1));
  const counts = levels.map((keys) => new Float64Array((topOf(keys) + 1) * classes));
  const all = new Float64Array(classes).fill(1);
  let allPlays = classes;
  let loss = 0;
  let judged = 0;
  let start = 0;
  while (start < rows.length) {
    const current = game[rows[start] ?? 0] ?? 0;
    const teaches = current < untilGame;
    let end = start;
    while (end < rows.length && game[rows[end] ?? 0] === current) end += 1;
    for (let at = start; at < end; at += 1) {
      const row = rows[at] ?? 0;
      const base = row * classes;
      for (let k = 0; k < classes; k += 1) shares[base + k] = (all[k] ?? 0) / allPlays;
      for (let level = 0; level < levels.length; level += 1) {
        const key = levels[level]?.[row] ?? -1;
        if (key < 0) continue;
        const seen = totals[level]?.[key] ?? 0;
        if (seen === 0) continue;
        const weight = concentrations[level] ?? FIRST_GUESS;
        const count = counts[level];
        for (let k = 0; k < classes; k += 1) {
          shares[base + k] = ((count?.[key * classes + k] ?? 0) + weight * (shares[base + k] ?? 0)) / (seen + weight);
        }
      }
      if (teaches) {
        loss -= Math.log(shares[base + (outcome[row] ?? 0)] ?? 1);
        judged += 1;
      }
    }
    for (let at = start; at < end && teaches; at += 1) {
      const row = rows[at] ?? 0;
      const seen = outcome[row] ?? 0;
      all[seen] = (all[seen] ?? 0) + 1;
      allPlays += 1;
      for (let level = 0; level < levels.length; level += 1) {
        const key = levels[level]?.[row] ?? -1;
        if (key < 0) continue;
        const [total, count] = [totals[level], counts[level]];
        if (total !== undefined) total[key] = (total[key] ?? 0) + 1;
        if (count !== undefined) count[key * classes + seen] = (count[key * classes + seen] ?? 0) + 1;
      }
    }
    start = end;
  }
  return judged === 0 ? 0 : loss / judged;
}

function topOf(keys: Int32Array): number {
  return keys.reduce((top, key) => Math.max(top, key), -1);
}
