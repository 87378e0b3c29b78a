import type { SheetMapping } from '#domain/charting/sheet-mapping.js';
import { filledTargets, mappedSheet } from '#domain/charting/sheet-mapping-reader.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import { MAIN_CHART } from './import-plan.js';
import type { LeftoverList } from './leftover-list.js';
import type { ProblemList } from './problem-list.js';
import type { RowMaker } from './read-rows.js';

/**
 * Rows of a person's own sheet, read as a mapping says. A cell that cannot be read, and a word that has to be asked
 * about, is a problem the first time that it stands in its column: one answer in the mapping settles them all.
 *
 * @param required - fields and keys that some column or constant must fill
 * @throws ApiError `import.refused` with every header that the mapping does not know, and all that is missing
 */
export function mappedRows(
  mapping: SheetMapping,
  headers: readonly string[],
  required: readonly string[],
  vocabulary: Vocabulary,
  problems: ProblemList,
  leftovers: LeftoverList,
): RowMaker {
  const sheet = mappedSheet(mapping, headers, vocabulary);
  const filled = filledTargets(mapping, headers);
  const missing = required.filter((name) => !filled.has(name) && !(name === 'order' && mapping.order === 'rows'));
  const errors: FieldProblem[] = [
    ...sheet.problems.map((problem) => ({ row: 1, ...problem })),
    ...missing.map((name) => ({ row: 1, field: name, found: '', expected: `a column, or a constant, for ${name}` })),
  ];
  if (errors.length > 0) {
    throw new ApiError('import.refused', 'the header does not fit the mapping', { errors, totalErrors: errors.length });
  }
  const told = new OnceTold();
  const counted = new Map<string, number>();
  return (row, cells) => {
    const { values, keys, offenseIsOther, findings, leftovers: left } = sheet.read(cells);
    for (const finding of findings) {
      const { header, found } = finding;
      if (told.isNew(header, found)) problems.add(row, header, found, () => finding.expected);
    }
    for (const leftover of left) leftovers.add(row, leftover);
    if (mapping.order === 'column') return { row, record: keys, values, offenseIsOther };
    const chart = `${keys.game ?? ''}\n${keys.chart ?? MAIN_CHART}`;
    const order = (counted.get(chart) ?? 0) + 1;
    counted.set(chart, order);
    return { row, record: { ...keys, order }, values, offenseIsOther };
  };
}

/** Beyond this many different ones, a cell may be told again. */
const REMEMBERED = 10_000;
const COMPARED_CHARACTERS = 200;

/** Remembers what was told already, in bounded room. */
class OnceTold {
  private readonly told = new Set<string>();

  isNew(header: string, found: string): boolean {
    const key = `${header}\n${found.slice(0, COMPARED_CHARACTERS)}`;
    if (this.told.has(key)) return false;
    if (this.told.size < REMEMBERED) this.told.add(key);
    return true;
  }
}
