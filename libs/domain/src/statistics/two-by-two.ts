import { assertCountTable } from './guards.js';

/** Two rows (say: cue present, cue absent) by two columns (call made, not made); integers ≥ 0. */
export type TwoByTwo = readonly [readonly [number, number], readonly [number, number]];

export interface Margins {
  readonly firstRow: number;
  readonly secondRow: number;
  readonly firstColumn: number;
  readonly secondColumn: number;
  readonly total: number;
}

export function marginsOf([[a, b], [c, d]]: TwoByTwo): Margins {
  return { firstRow: a + b, secondRow: c + d, firstColumn: a + c, secondColumn: b + d, total: a + b + c + d };
}

export function assertTwoByTwo(name: string, table: TwoByTwo): void {
  assertCountTable(name, table, { rows: 2, columns: 2 });
}
