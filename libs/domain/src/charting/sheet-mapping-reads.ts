import type { PlayFieldName } from './play-fields.js';

/** A number that a cell turned out to hold; distance may be "goal", which is as far as the goal line is. */
export interface ReadNumber {
  readonly field: PlayFieldName | null;
  readonly number: number | 'goal';
}

interface Read {
  /** Fields that this way of writing fills by itself; empty where the column says which. */
  readonly fills: readonly PlayFieldName[];
  readonly expected: string;
  /** Null for a cell that is not written so. A field of null is the column's own. */
  readonly read: (text: string) => readonly ReadNumber[] | null;
}

const MIDFIELD: ReadonlySet<string> = new Set(['50', 'midfield', 'mid field']);

function yardsToGoal(number: number): readonly ReadNumber[] {
  return [{ field: 'yardsToGoal', number }];
}

/**
 * Ways in which people write numbers that are not just the number. Common practice, no source. Text comes in lower case,
 * trimmed, with single spaces.
 */
export const CELL_READS = {
  'first number': {
    fills: [],
    expected: 'a cell with a whole number in it',
    read: (text) => {
      const found = /[+-]?\d+/.exec(text.replace(/[\u2212\u2013]/g, '-'));
      return found === null ? null : [{ field: null, number: Number(found[0]) }];
    },
  },
  'down and distance': {
    fills: ['down', 'distance'],
    expected: 'down and distance, such as "3rd & 7", "2-10" or "1st and goal"',
    read: (text) => {
      const found = /^([1-4])(?:st|nd|rd|th)?(?: ?(?:&|and|-|\/|,|\+) ?| )(\d{1,2}|goal|g|inches)$/.exec(text);
      if (found === null) return null;
      const [, down, distance] = found;
      const yards = distance === 'inches' ? 1 : Number(distance);
      return [
        { field: 'down', number: Number(down) },
        { field: 'distance', number: Number.isNaN(yards) ? 'goal' : yards },
      ];
    },
  },
  'own or opponent spot': {
    fills: ['yardsToGoal'],
    expected: 'a spot with its side, such as "own 35", "opp 20" or "50"',
    read: (text) => {
      if (MIDFIELD.has(text)) return yardsToGoal(50);
      const found = /^(own|opp|opponent|opponents|their|theirs|our)\.? ?'?s? ?(\d{1,2})$/.exec(text);
      if (found === null) return null;
      const yards = Number(found[2]);
      if (yards < 1 || yards > 50) return null;
      return yardsToGoal(found[1] === 'own' || found[1] === 'our' ? 100 - yards : yards);
    },
  },
  'signed spot': {
    fills: ['yardsToGoal'],
    expected: 'a spot from -1 to -49 in the own half, from 1 to 50 in the other',
    read: (text) => {
      const found = /^([+-]?)(\d{1,2})$/.exec(text.replace(/[\u2212\u2013]/g, '-'));
      if (found === null) return null;
      const yards = Number(found[2]);
      if (yards < 1 || yards > 50) return null;
      return yardsToGoal(found[1] === '-' ? 100 - yards : yards);
    },
  },
} as const satisfies Readonly<Record<string, Read>>;

export type CellRead = keyof typeof CELL_READS;

/** Reads a cell in one of these ways; null where it is not written so. */
export function readNumbers(how: CellRead, cell: string): readonly ReadNumber[] | null {
  return CELL_READS[how].read(cell.trim().toLowerCase().replace(/\s+/g, ' '));
}
