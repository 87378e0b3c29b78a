import { normaliseTerm } from './normalise-term.js';
import { PLAY_FIELDS } from './play-fields.js';
import { saysUnknown } from './read-cell.js';
import { useByHeader, type ColumnUse } from './sheet-mapping-headers.js';
import { columnLabels, type SheetColumn, type SheetMapping } from './sheet-mapping.js';
import { columnReader, type CellReader, type CellReading } from './sheet-mapping-cells.js';
import { filledTargets } from './sheet-mapping-reader.js';
import type { Vocabulary } from './vocabulary.js';

/** What a column seems to be, and how sure that is. */
export interface ColumnGuess {
  readonly header: string;
  /** Null where nothing seems to fit. */
  readonly column: SheetColumn | null;
  /** 0 to 1; from header and samples, see `suggestMapping`. Not a probability. */
  readonly confidence: number;
}

/** Something that only the person knows. */
export interface MappingQuestion {
  /**
   * `header`: what is this column; `word`: what is meant by a word or cell; `left over`: words that nothing explains;
   * `missing`: something that every play needs and no column says.
   */
  readonly kind: 'header' | 'word' | 'left over' | 'missing';
  /** Empty for what no column says. */
  readonly header: string;
  readonly found: string;
  readonly question: string;
  /** Sample rows that it is about. */
  readonly rows: number;
}

export interface MappingSuggestion {
  readonly columns: readonly ColumnGuess[];
  readonly questions: readonly MappingQuestion[];
  /** To be completed by the answers: columns without a guess are left out of it. */
  readonly draft: SheetMapping;
}

const OURS: ReadonlySet<string> = new Set(['o', 'off', 'offense', 'us', 'we']);
const THEIRS: ReadonlySet<string> = new Set(['d', 'def', 'defense', 'them', 'they']);

/** Facts that people write into one cell together. */
const TOGETHER: readonly (readonly string[])[] = [
  ['backfield', 'formation', 'strength', 'motion'],
  ['front', 'shell', 'coverage', 'pressure'],
  ['callFamily', 'concept'],
];

const BY_CONTENT: readonly ColumnUse[] = [
  { read: 'down and distance' },
  { read: 'own or opponent spot' },
  ...PLAY_FIELDS.filter(({ type }) => type === 'term').map(({ name }) => ({ to: name })),
  ...TOGETHER.map((split) => ({ split })),
];

/** Below this share of understood samples a header's word is not taken for it. */
const UNDERSTOOD = 0.5;
/** More questions about one column are better asked once these are answered. */
const MOST_OF_A_COLUMN = 20;
/** Cells alone have to speak clearly. */
const CLEARLY_UNDERSTOOD = 0.8;
/** Every use is tried on these, so they are few. */
const MOST_BY_CONTENT = 20;

/**
 * A first mapping for a sheet, from its header and some rows, and what has to be asked. A header that people write for a
 * field counts half, the share of sample cells that can then be read the other half; a column with an unknown header is
 * what at least four of five of its cells can be read as. Where splitting reads more cells than taking them whole, cells
 * are split. Rules of thumb of our own.
 *
 * @param headers - the header row
 * @param rows    - sample rows, each as long as the header
 */
export function suggestMapping(
  headers: readonly string[],
  rows: readonly (readonly string[])[],
  vocabulary: Vocabulary,
): MappingSuggestion {
  const labels = columnLabels(headers);
  const readerOf = readersOnce(vocabulary);
  const guesses = labels.map((header, at) =>
    guessColumn(
      header,
      rows.map((row) => row[at] ?? ''),
      readerOf,
    ),
  );
  const draft = draftOf(guesses, headers);
  const questions = guesses.flatMap((guess, at) =>
    questionsOf(
      guess,
      rows.map((row) => row[at] ?? ''),
      vocabulary,
    ),
  );
  return { columns: guesses, questions: [...questions, ...missing(draft, headers)], draft };
}

/** A reader knows hundreds of words, so that one is made for each use rather than for each column. */
function readersOnce(vocabulary: Vocabulary): (use: ColumnUse) => CellReader {
  const readers = new Map<string, CellReader>();
  return (use) => {
    const key = JSON.stringify(use);
    const reader = readers.get(key) ?? columnReader('', { header: '', ...use }, 'us', [], vocabulary);
    readers.set(key, reader);
    return reader;
  };
}

function guessColumn(header: string, cells: readonly string[], readerOf: (use: ColumnUse) => CellReader): ColumnGuess {
  const samples = [...new Set(cells)].filter((cell) => !saysUnknown(cell));
  const share = (use: ColumnUse): number => understood(readerOf(use), samples, 0);
  const named = useByHeader(header);
  if (named !== null) {
    const best = bestOf([named, ...variants(named, samples)], share);
    if (samples.length === 0) return { header, column: { header, ...named }, confidence: 0.5 };
    if (best.share >= UNDERSTOOD) {
      return { header, column: { header, ...best.use }, confidence: rounded(0.5 + best.share / 2) };
    }
  }
  const few = samples.slice(0, MOST_BY_CONTENT);
  const clear = (use: ColumnUse): number => understood(readerOf(use), few, CLEARLY_UNDERSTOOD);
  const best = few.length === 0 ? null : bestOf(BY_CONTENT, clear);
  if (best === null || best.share < CLEARLY_UNDERSTOOD) return { header, column: null, confidence: 0 };
  return { header, column: { header, ...best.use }, confidence: rounded(best.share / 2) };
}

/** Other ways to write what a header says. */
function variants(named: ColumnUse, samples: readonly string[]): readonly ColumnUse[] {
  const { to } = named;
  if (to === undefined) return [];
  if (to === 'yardsToGoal') return [{ read: 'signed spot' }, { read: 'own or opponent spot' }];
  if (to === 'offense') {
    const words = [...new Set(samples.map((cell) => cell.trim()))];
    const us = words.filter((word) => OURS.has(normaliseTerm(word)));
    const them = words.filter((word) => THEIRS.has(normaliseTerm(word)));
    return us.length + them.length === words.length ? [{ possession: { us, them } }] : [];
  }
  return TOGETHER.filter((fields) => fields.includes(to)).map((split) => ({ split }));
}

/** The first of the best. Whose side the ball is on is said by words that would pass for names too. */
function bestOf(uses: readonly ColumnUse[], share: (use: ColumnUse) => number): { use: ColumnUse; share: number } {
  return uses
    .map((use) => ({ use, share: share(use) }))
    .reduce((best, next) => (next.share > best.share || isPossession(next) ? next : best));
}

function isPossession({ use, share }: { use: ColumnUse; share: number }): boolean {
  return use.possession !== undefined && share === 1;
}

/** The share of samples that can be read; 0, without looking further, once it cannot come up to `least`. */
function understood(read: CellReader, samples: readonly string[], least: number): number {
  let missed = 0;
  for (const cell of samples) {
    if (!isUnderstood(read(cell))) missed += 1;
    if (missed > samples.length * (1 - least)) return 0;
  }
  return samples.length === 0 ? 0 : 1 - missed / samples.length;
}

function isUnderstood({ values, keys, findings = [], leftovers = [] }: CellReading): boolean {
  return values.length + keys.length > 0 && findings.length + leftovers.length === 0;
}

function rounded(confidence: number): number {
  return Math.round(confidence * 100) / 100;
}

function draftOf(guesses: readonly ColumnGuess[], headers: readonly string[]): SheetMapping {
  const columns = guesses.flatMap(({ column }) => (column === null ? [] : [column]));
  const draft: SheetMapping = { columns, constants: {}, answers: [], us: null, order: 'column' };
  const filled = filledTargets(draft, headers);
  return {
    ...draft,
    constants: filled.has('playType') ? {} : { playType: 'scrimmage' },
    order: filled.has('order') ? 'column' : 'rows',
  };
}

function questionsOf(
  { header, column }: ColumnGuess,
  cells: readonly string[],
  vocabulary: Vocabulary,
): readonly MappingQuestion[] {
  if (column === null) {
    const filled = cells.filter((cell) => !saysUnknown(cell)).length;
    return [{ kind: 'header', header, found: header, question: `What is in the column "${header}"?`, rows: filled }];
  }
  const read = columnReader(header, column, 'us', [], vocabulary);
  const asked = new Map<string, { question: Omit<MappingQuestion, 'rows'>; rows: number }>();
  const ask = (kind: MappingQuestion['kind'], found: string, say: () => string): void => {
    const key = `${kind} ${normaliseTerm(found)}`;
    const before = asked.get(key);
    if (before !== undefined) before.rows += 1;
    else if (asked.size < MOST_OF_A_COLUMN)
      asked.set(key, { question: { kind, header, found, question: say() }, rows: 1 });
  };
  for (const cell of cells) {
    const { findings = [], leftovers = [] } = read(cell);
    for (const finding of findings) ask('word', finding.found, () => finding.expected);
    for (const { words, reason } of leftovers) {
      const question = reason === 'not understood' ? WHAT_IS_MEANT : WHICH_COUNTS;
      for (const found of words) ask('left over', found, () => question);
    }
  }
  return [...asked.values()].map(({ question, rows }) => ({ ...question, rows }));
}

const WHAT_IS_MEANT = 'What do these words mean? Say it in `words`, or leave them out.';
const WHICH_COUNTS = 'These words contradict others of the same cell. Which of them counts?';

const NEEDED: readonly (readonly [name: string, question: string])[] = [
  ['game', 'Which column says which game it is? None is needed for a sheet of one game that is sent to that game.'],
  ['offense', 'Who has the ball? A column, or always the same player.'],
];

function missing(draft: SheetMapping, headers: readonly string[]): readonly MappingQuestion[] {
  const filled = filledTargets(draft, headers);
  const questions = NEEDED.filter(([name]) => !filled.has(name));
  const possession = draft.columns.find((column) => column.possession !== undefined);
  return [
    ...questions.map(([found, question]) => ({ kind: 'missing' as const, header: '', found, question, rows: 0 })),
    ...(possession === undefined
      ? []
      : [{ kind: 'missing' as const, header: possession.header, found: 'us', question: WHO_IS_US, rows: 0 }]),
  ];
}

const WHO_IS_US = 'Which player does the sheet call "us"?';
