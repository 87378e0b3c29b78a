import type { PlayValue } from './play-columns.js';
import { PLAY_FIELDS } from './play-fields.js';
import { placeOf } from './reconcile-scope.js';
import { sameValue } from './reconcile.js';
import {
  columnLabels,
  readMeaning,
  squeezeHeader,
  targetOf,
  type MappingProblem,
  type ReadMeaning,
  type SheetColumn,
  type SheetKey,
  type SheetMapping,
} from './sheet-mapping.js';
import {
  columnReader,
  meaningsOf,
  SAYS_NOTHING,
  type CellFinding,
  type CellLeftover,
  type CellReader,
} from './sheet-mapping-cells.js';
import { CELL_READS } from './sheet-mapping-reads.js';
import type { Vocabulary } from './vocabulary.js';

/** One row of a person's sheet as a play. */
export interface MappedRow {
  /** Aligned with PLAY_FIELDS. */
  readonly values: PlayValue[];
  readonly keys: Partial<Record<SheetKey, string>>;
  /** Whether `keys.offense` names the player who has not got the ball. */
  readonly offenseIsOther: boolean;
  readonly findings: readonly CellFinding[];
  readonly leftovers: readonly CellLeftover[];
}

const DISTANCE = placeOf('distance');
const YARDS_TO_GOAL = placeOf('yardsToGoal');

/**
 * Reads the rows of a sheet with these headers as the mapping says. Columns are read from left to right; a field that two
 * columns say different things of is a finding. A column that the mapping does not name goes by its own name if the
 * catalogue knows that, else it is a problem, so that nothing is left out unsaid.
 *
 * @param mapping - without problems, see `checkMapping`
 * @returns what is wrong with the header, and the reader of one row
 */
export function mappedSheet(
  mapping: SheetMapping,
  headers: readonly string[],
  vocabulary: Vocabulary,
): { readonly problems: readonly MappingProblem[]; readonly read: (cells: readonly string[]) => MappedRow } {
  const problems: MappingProblem[] = [];
  const byHeader = new Map(mapping.columns.map((column) => [squeezeHeader(column.header), column]));
  const answers = meaningsOf(mapping.answers, vocabulary);
  const columns = columnLabels(headers).map((label) => {
    const column = byHeader.get(squeezeHeader(label)) ?? ownName(label);
    if (column !== null)
      return { header: label, read: columnReader(label, column, mapping.us ?? '', answers, vocabulary) };
    problems.push({ field: label, found: label, expected: 'a column that the mapping names, also to ignore it' });
    return { header: label, read: () => SAYS_NOTHING };
  });
  const constants = readMeaning({ word: 'constants', is: mapping.constants }, vocabulary);
  const defaults = 'says' in constants ? constants : { says: [], keys: [] };
  return { problems, read: (cells) => readRow(columns, cells, defaults) };
}

/** Every name that some column or constant of this sheet may fill. */
export function filledTargets(mapping: SheetMapping, headers: readonly string[]): ReadonlySet<string> {
  const byHeader = new Map(mapping.columns.map((column) => [squeezeHeader(column.header), column]));
  const targets = new Set(Object.keys(mapping.constants));
  for (const { is } of mapping.answers) Object.keys(is).forEach((name) => targets.add(name));
  for (const label of columnLabels(headers)) {
    const column = byHeader.get(squeezeHeader(label)) ?? ownName(label);
    if (column === null || column.ignore === true) continue;
    const own = column.to === undefined ? null : targetOf(column.to);
    if (own !== null) targets.add(own);
    if (column.possession !== undefined) targets.add('offense');
    for (const name of column.split ?? []) targets.add(name);
    if (column.read !== undefined) CELL_READS[column.read].fills.forEach((name) => targets.add(name));
    for (const { is } of column.words ?? []) Object.keys(is).forEach((name) => targets.add(name));
  }
  return targets;
}

function ownName(label: string): SheetColumn | null {
  const to = targetOf(label);
  return to === null ? null : { header: label, to };
}

function readRow(
  columns: readonly { readonly header: string; readonly read: CellReader }[],
  cells: readonly string[],
  defaults: Pick<ReadMeaning, 'says' | 'keys'>,
): MappedRow {
  const values = new Array<PlayValue>(PLAY_FIELDS.length).fill(null);
  const keys: Partial<Record<SheetKey, string>> = {};
  let findings: CellFinding[] | null = null;
  let leftovers: CellLeftover[] | null = null;
  let goalToGo = false;
  let offenseIsOther = false;
  for (let at = 0; at < columns.length; at += 1) {
    const column = columns[at];
    const cell = cells[at];
    if (column === undefined || cell === undefined || cell === '') continue;
    const reading = column.read(cell);
    for (const [place, value] of reading.values) {
      const before = values[place] ?? null;
      if (value === null || sameValue(before, value)) continue;
      if (before === null) values[place] = value;
      else {
        const name = PLAY_FIELDS[place]?.name ?? '';
        (findings ??= []).push({ header: column.header, found: cell, expected: `what another column says of ${name}` });
      }
    }
    for (const [key, text] of reading.keys) if (text !== '') keys[key] = text;
    if (reading.goalToGo === true) goalToGo = true;
    if (reading.offenseIsOther === true) offenseIsOther = true;
    if (reading.findings !== undefined && reading.findings.length > 0) (findings ??= []).push(...reading.findings);
    if (reading.leftovers !== undefined && reading.leftovers.length > 0) (leftovers ??= []).push(...reading.leftovers);
  }
  if (goalToGo) values[DISTANCE] ??= values[YARDS_TO_GOAL] ?? null;
  for (const { field, value } of defaults.says) values[placeOf(field)] ??= value;
  for (const [key, text] of defaults.keys) keys[key] ??= text;
  return { values, keys, offenseIsOther, findings: findings ?? NONE, leftovers: leftovers ?? NONE };
}

const NONE: readonly never[] = [];
