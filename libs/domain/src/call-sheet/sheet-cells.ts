import type { PlayColumns } from '../charting/play-columns.js';
import { playOrder } from '../football/play-order.js';
import { zoneCodes, type Classification, type SituationSettings } from '../football/situations.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';

/** A cell of the sheet: where it stands, and which plays of a side it draws on. */
export interface CellPlan {
  readonly key: string;
  readonly title: string;
  /** Heading that the cell stands under. */
  readonly group: string;
  /** The partition of the plays and the parts of it that belong to the cell. */
  readonly partition: 'openers' | 'downs' | 'zones' | 'clock';
  readonly parts: readonly string[];
  /** Key of the cell whose plays these are: its own, but where it stands for another. */
  readonly drawsOn: string;
  /** Said beside it, where it stands for something else. */
  readonly note?: string;
}

const FIRST_SNAPS = 'first snaps';
/** Snaps of a side's that open a game. Common practice, no source. */
export const OPENERS = 8;

const cell = (
  group: string,
  key: string,
  title: string,
  partition: CellPlan['partition'],
  ...parts: readonly string[]
): CellPlan => ({ group, key, title, partition, parts, drawsOn: key });

/** In the order in which a caller looks for them: by down and distance, by place, by clock. */
export const CELLS: readonly CellPlan[] = [
  cell('Downs', 'openers', `First ${OPENERS} snaps`, 'openers', FIRST_SNAPS),
  cell('Downs', 'first', '1st and 10 or more', 'downs', 'first snap of a drive', '1st and 10', '1st and over 10'),
  cell('Downs', 'second-short', '2nd and 1-3', 'downs', '2nd and 1-3'),
  cell('Downs', 'second-medium', '2nd and 4-6', 'downs', '2nd and 4-6'),
  cell('Downs', 'second-long', '2nd and 7 or more', 'downs', '2nd and 7-10', '2nd and 11 or more'),
  cell('Third down', 'third-1', '3rd and 1-2', 'downs', '3rd and 1-2'),
  cell('Third down', 'third-3', '3rd and 3-6', 'downs', '3rd and 3-6'),
  cell('Third down', 'third-7', '3rd and 7-10', 'downs', '3rd and 7-10'),
  cell('Third down', 'third-11', '3rd and 11 or more', 'downs', '3rd and 11 or more'),
  cell('Place', 'red', 'Red zone, 20 to 4', 'zones', 'high red', 'low red'),
  cell('Place', 'goal', 'Goal line, 3 to 1', 'zones', 'goal line'),
  cell('Place', 'backed-up', 'Backed up, own 10', 'zones', 'backed up'),
  cell(
    'Clock',
    'two-minute',
    'Two-minute',
    'clock',
    'two-minute before the half',
    'two-minute trailing',
    'two-minute tied',
  ),
  cell('Clock', 'four-minute', 'Four-minute, ahead', 'clock', 'four-minute ahead'),
  {
    ...cell('Place', 'two-point', 'Two-point try', 'zones', 'goal line'),
    drawsOn: 'goal',
    note: 'as on the goal line',
  },
];

export type CellPartitions = Readonly<Record<CellPlan['partition'], Classification>>;

/** The four ways in which a sheet cuts the plays of a field. @param clock - of the same batch */
export function cellPartitions(
  facts: TendencyPlays,
  clock: Classification,
  settings: SituationSettings,
): CellPartitions {
  return {
    openers: { codes: openerCodes(facts), names: [FIRST_SNAPS] },
    downs: { codes: facts.situation, names: facts.situationNames },
    zones: zoneCodes(facts.plays, settings),
    clock,
  };
}

/** 0 where a play is among the first counting snaps of its side in its game, -1 elsewhere. */
function openerCodes({ plays, counts }: TendencyPlays): Int8Array {
  const codes = new Int8Array(plays.count).fill(-1);
  const seen = new Map<number, number>();
  for (const play of playOrder(plays)) {
    if (counts[play] !== 1) continue;
    const side = sideOf(plays, play);
    const before = seen.get(side) ?? 0;
    if (before < OPENERS) codes[play] = 0;
    seen.set(side, before + 1);
  }
  return codes;
}

function sideOf(plays: PlayColumns, play: number): number {
  return 2 * (plays.chartIndex[play] ?? 0) + (plays.offenseIsHome[play] ?? 0);
}
