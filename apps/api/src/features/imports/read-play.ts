import { isPlainObject } from '../../common/merge-patch.js';
import { checkPlay } from '#domain/charting/check-play.js';
import { PLAY_FIELDS, playField } from '#domain/charting/play-fields.js';
import type { PlayValue } from '#domain/charting/play-columns.js';
import { readCell, type CellReading } from '#domain/charting/read-cell.js';
import { SHEET_KEYS } from '#domain/charting/sheet-mapping.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import type { ProblemList } from './problem-list.js';
import type { ImportRow } from './read-rows.js';

const LONGEST_NOTE = 2000;
const LATEST_ORDER = 2000;
const KNOWN_BY: ReadonlySet<unknown> = new Set(['seen', 'inferred', 'told', 'own call log']);
const BESIDE_FIELDS: ReadonlySet<string> = new Set([...SHEET_KEYS, 'record', 'adjustments', 'knownBy']);

/** What a row says of a play before it is known which game's home player has the ball. */
export interface PlayReading {
  readonly order: number;
  readonly offense: string;
  /** Whether `offense` is the player who has not got the ball. */
  readonly offenseIsOther: boolean;
  readonly values: readonly PlayValue[];
  readonly note: string | null;
  readonly adjustmentDetails: unknown;
  readonly knownBy: unknown;
}

/**
 * Reads rows as plays. The same few hundred words fill millions of cells, so each is looked up once a field and kept
 * for the rest of the file.
 */
export class PlayReader {
  private readonly seen = PLAY_FIELDS.map(() => new Map<string | number | boolean, CellReading>());

  constructor(
    private readonly vocabulary: Vocabulary,
    private readonly problems: ProblemList,
  ) {}

  /** The play of a row; null when the row has problems, which are then on the list. */
  read({ row, record, values: mapped, offenseIsOther = false }: ImportRow): PlayReading | null {
    const before = this.problems.total;
    const details = this.readAdjustments(row, record['adjustments']);
    const values = mapped ?? this.readValues(row, record, details);
    this.refuseOthers(row, record);
    const order = this.readOrder(row, record['order']);
    const offense = this.readText(row, 'offense', record['offense'], 80);
    const note = this.readText(row, 'note', record['note'], LONGEST_NOTE);
    if (offense === null) this.problems.add(row, 'offense', record['offense'], 'the player who has the ball');
    const knownBy = this.readKnownBy(row, record['knownBy']);
    if (this.problems.total === before) {
      for (const problem of checkPlay(values)) this.problems.add(row, problem.field, problem.found, problem.expected);
    }
    if (this.problems.total > before || order === null || offense === null) return null;
    return { order, offense, offenseIsOther, values, note, adjustmentDetails: details, knownBy };
  }

  private readValues(
    row: number,
    record: ImportRow['record'],
    details: readonly Readonly<Record<string, unknown>>[] | null,
  ): readonly PlayValue[] {
    return PLAY_FIELDS.map((field, place): PlayValue => {
      const fromDetails = details !== null && field.name === 'preSnapAdjustments';
      const cell = fromDetails ? details.map((detail) => detail['term']) : record[field.name];
      if (cell === undefined || cell === '') return null;
      const reading = this.readKept(place, cell);
      if (reading.ok) return reading.value;
      this.problems.add(row, field.name, cell, () => reading.expected);
      return null;
    });
  }

  private readKept(place: number, cell: unknown): CellReading {
    const field = PLAY_FIELDS[place];
    const kept = this.seen[place];
    if (field === undefined || kept === undefined) return { ok: true, value: null };
    if (typeof cell !== 'string' && typeof cell !== 'number' && typeof cell !== 'boolean') {
      return readCell(field, cell, this.vocabulary);
    }
    const known = kept.get(cell);
    if (known !== undefined) return known;
    const reading = readCell(field, cell, this.vocabulary);
    kept.set(cell, reading);
    return reading;
  }

  private refuseOthers(row: number, record: ImportRow['record']): void {
    for (const name in record) {
      if (playField(name) === undefined && !BESIDE_FIELDS.has(name)) {
        this.problems.add(row, name, record[name], 'a field of the catalogue, or no such property');
      }
    }
  }

  private readOrder(row: number, cell: unknown): number | null {
    const order =
      typeof cell === 'number' ? cell : typeof cell === 'string' && /^\d+$/.test(cell.trim()) ? Number(cell) : 0;
    if (Number.isInteger(order) && order >= 1 && order <= LATEST_ORDER) return order;
    this.problems.add(row, 'order', cell, `a whole number from 1 to ${LATEST_ORDER}`);
    return null;
  }

  private readText(row: number, field: string, cell: unknown, longest: number): string | null {
    if (cell === undefined || cell === null) return null;
    if (typeof cell !== 'string' || cell.length > longest) {
      this.problems.add(row, field, cell, `text of at most ${longest} characters`);
      return null;
    }
    const text = cell.trim();
    return text === '' ? null : text;
  }

  private readAdjustments(row: number, cell: unknown): readonly Readonly<Record<string, unknown>>[] | null {
    if (cell === undefined || cell === null) return null;
    const details = Array.isArray(cell) ? (cell as unknown[]).filter(isAdjustment) : [];
    if (Array.isArray(cell) && details.length === cell.length) return details;
    this.problems.add(row, 'adjustments', cell, 'an array of {term, secondsLeft?, trigger?}');
    return null;
  }

  private readKnownBy(row: number, cell: unknown): unknown {
    if (cell === undefined || cell === null) return null;
    const fits =
      isPlainObject(cell) &&
      Object.entries(cell).every(([name, how]) => playField(name) !== undefined && KNOWN_BY.has(how));
    if (fits) return cell;
    this.problems.add(row, 'knownBy', cell, `an object of field names with one of: ${[...KNOWN_BY].join(', ')}`);
    return null;
  }
}

function isAdjustment(value: unknown): value is Readonly<Record<string, unknown>> {
  if (!isPlainObject(value) || typeof value['term'] !== 'string') return false;
  const { secondsLeft, trigger, ...others } = value;
  const secondsFit =
    secondsLeft === undefined || (typeof secondsLeft === 'number' && secondsLeft >= 0 && secondsLeft <= 60);
  const triggerFits = trigger === undefined || (typeof trigger === 'string' && trigger.length <= 200);
  return secondsFit && triggerFits && Object.keys(others).length === 1;
}
