import loadHighs from 'highs';
import type { Payoffs } from '../matrix-game.js';

/** Its own tolerances stop at 1e-7; these are the closest it allows. */
const OPTIONS = {
  output_flag: false,
  primal_feasibility_tolerance: 1e-10,
  dual_feasibility_tolerance: 1e-10,
  small_matrix_value: 1e-12,
} as const;

/** The value of a zero-sum game as a library solves the row player's linear programme, written in the CPLEX LP format. */
export async function valueByLibrary(): Promise<(payoffs: Payoffs) => number> {
  const highs = await loadHighs();
  return (payoffs) => {
    const shares = payoffs.map((_, row) => `x${row}`);
    const columns = (payoffs[0] ?? []).map((_, column) => {
      const gains = payoffs.map((row, at) => `${signed(-(row[column] ?? 0))} x${at}`);
      return ` c${column}: ${gains.join(' ')} + value <= 0`;
    });
    const programme = [
      ...['Maximize', ' gain: value', 'Subject To', ...columns],
      ...[` shares: ${shares.join(' + ')} = 1`, 'Bounds', ' value free', 'End'],
    ];
    const { Status: status, Columns: found } = highs.solve(programme.join('\n'), OPTIONS);
    if (status !== 'Optimal') throw new Error(`the library says ${status}`);
    return found['value']?.Primal ?? NaN;
  };
}

function signed(coefficient: number): string {
  return `${coefficient < 0 ? '-' : '+'} ${Math.abs(coefficient)}`;
}
