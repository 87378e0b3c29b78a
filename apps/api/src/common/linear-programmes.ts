import loadHighs, { type Solved } from 'highs';
import type { LinearProgramme, LinearSolution, SolveLinearProgramme } from '#domain/answers/linear-programme.js';

/** Its own tolerances stop at 1e-7; these are the closest it allows. Presolving costs more than games this small take. */
const OPTIONS = {
  output_flag: false,
  presolve: 'off',
  primal_feasibility_tolerance: 1e-10,
  dual_feasibility_tolerance: 1e-10,
  small_matrix_value: 1e-12,
} as const;

let loading: Promise<SolveLinearProgramme> | undefined;

/** HiGHS in WebAssembly, loaded once a process. */
export function linearSolver(): Promise<SolveLinearProgramme> {
  loading ??= loadHighs().then((highs): SolveLinearProgramme => (programme) => {
    const solution = highs.solve(programmeText(programme), OPTIONS);
    if (solution.Status !== 'Optimal') return null;
    return readSolution(programme, solution);
  });
  return loading;
}

/** The programme in the CPLEX LP format, as HiGHS reads it. */
function programmeText({ objective, rows, limits, sumTo1 }: LinearProgramme): string {
  const sum = (coefficients: readonly number[]): string =>
    coefficients
      .map((coefficient, place) => `${coefficient < 0 ? '-' : '+'} ${Math.abs(coefficient)} x${place}`)
      .join(' ');
  return [
    'Maximize',
    ` gain: ${sum(objective)}`,
    'Subject To',
    ...rows.map((row, place) => ` r${place}: ${sum(row)} <= ${limits[place] ?? 0}`),
    ` shares: ${sum(objective.slice(0, sumTo1).map(() => 1))} = 1`,
    'End',
  ].join('\n');
}

function readSolution({ objective, rows }: LinearProgramme, { Columns, Rows }: Solved): LinearSolution {
  const duals = new Map(Rows.map(({ Name, Dual }) => [Name, Dual]));
  return {
    values: objective.map((_, place) => Columns[`x${place}`]?.Primal ?? 0),
    duals: rows.map((_, place) => Math.abs(duals.get(`r${place}`) ?? 0)),
  };
}
