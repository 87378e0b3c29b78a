import { DomainError } from '../domain-error.js';
import { nearNames } from './near-names.js';
import { normaliseTerm } from './normalise-term.js';
import { TERM_KINDS, type TermKind } from './play-fields.js';
import { ASK_NEVER_GUESS, STARTER_TERMS } from './starter-vocabulary.js';

/** A controlled term as its readers see it: a starter term, or a clan's own. */
export interface Term {
  readonly id: number;
  readonly kind: TermKind;
  /** Stable code of a starter term; null on a clan's own. */
  readonly code: string | null;
  readonly name: string;
  /** The term this one rolls up to; a concept's parent is its usual call family. */
  readonly parentId: number | null;
  /** The starter term, of the same kind, that a clan's own term stands for. */
  readonly starterId: number | null;
  readonly synonyms: readonly string[];
}

export type FoundTerm =
  | { readonly status: 'found'; readonly term: Term }
  /** Up to three names of that kind that look like what was meant, nearest first. */
  | { readonly status: 'unknown'; readonly suggestions: readonly string[] }
  /** The word means several things: put the question to the person who used it. */
  | { readonly status: 'ask'; readonly question: string };

const QUESTIONS: ReadonlyMap<string, string> = new Map(
  ASK_NEVER_GUESS.map(({ word, question }) => [normaliseTerm(word), question]),
);

/**
 * The terms one reader works with: the starter terms and those of the reader's clan. Immutable.
 *
 * Words are compared as `normaliseTerm` leaves them. Among the terms of one owner (the service, the clan) a word stands
 * for one term inside its kind. A clan may use a starter term's word for a term of its own: the clan's own wins.
 */
export class Vocabulary {
  readonly #terms: ReadonlyMap<number, Term>;
  readonly #idsByCode: ReadonlyMap<string, number>;
  readonly #rows: ReadonlyMap<TermKind, readonly Term[]>;
  readonly #words: ReadonlyMap<TermKind, ReadonlyMap<string, Term>>;
  /** Canonical parent by canonical id. */
  readonly #parents: ReadonlyMap<number, number>;

  /**
   * @throws DomainError `vocabulary.duplicate_term` when two terms share an id or a code
   * @throws DomainError `vocabulary.ambiguous_word` when two terms of one kind and owner share a name or synonym
   * @throws DomainError `vocabulary.invalid_reference` when a parent is missing, or what a term stands for is no
   *   starter term of its kind or stands for another one itself
   * @throws DomainError `vocabulary.cycle` when a term is its own forebear
   */
  constructor(terms: readonly Term[]) {
    this.#terms = byUnique(terms, (term) => term.id);
    const coded = terms.flatMap(({ id, code }) => (code === null ? [] : [{ id, code }]));
    const idsByCode = byUnique(coded, ({ code }) => code);
    this.#idsByCode = new Map([...idsByCode].map(([code, { id }]) => [code, id]));
    this.#rows = new Map(TERM_KINDS.map((kind) => [kind, terms.filter((term) => term.kind === kind)]));
    this.#words = new Map([...this.#rows].map(([kind, rows]) => [kind, wordsOf(rows)]));
    this.#parents = canonicalParents(this.#terms);
  }

  byId(id: number): Term | undefined {
    return this.#terms.get(id);
  }

  /** @throws DomainError `vocabulary.unknown_code` */
  idOfCode(code: string): number {
    const id = this.#idsByCode.get(code);
    if (id === undefined) {
      throw new DomainError('vocabulary.unknown_code', `there is no term with code ${code}`, { code });
    }
    return id;
  }

  /** The terms of a kind in the order in which they were given. */
  rows(kind: TermKind): readonly Term[] {
    return this.#rows.get(kind) ?? [];
  }

  /**
   * The term of that kind that goes by this name or synonym. Hit or miss, it is a look-up or two; what may have been
   * meant is searched for only when `suggestions` is read. A word that staffs use for different things is asked about
   * unless it is listed in that kind.
   */
  find(kind: TermKind, text: string): FoundTerm {
    const word = normaliseTerm(text);
    const words = this.#words.get(kind);
    const term = words?.get(word);
    if (term !== undefined) return { status: 'found', term };
    const question = QUESTIONS.get(word);
    if (question !== undefined) return { status: 'ask', question };
    return new UnknownTerm(words, word);
  }

  /**
   * The term as which an id counts: a clan's own term that stands for a starter term counts as that one, any other as
   * itself. Null for an id that is not in this vocabulary, such as another clan's term, which counts as unknown.
   */
  canonicalId(id: number): number | null {
    const term = this.#terms.get(id);
    return term === undefined ? null : canonicalOf(term);
  }

  /** The canonical parent of the term as which the id counts; null when it has none or is not in this vocabulary. */
  parentId(id: number): number | null {
    const canonicalId = this.canonicalId(id);
    return canonicalId === null ? null : (this.#parents.get(canonicalId) ?? null);
  }

  /** Whether a term counts as the other one or rolls up to it. False when either is not in this vocabulary. */
  isWithin(id: number, ancestorId: number): boolean {
    const ancestor = this.canonicalId(ancestorId);
    if (ancestor === null) return false;
    let at = this.canonicalId(id);
    while (at !== null && at !== ancestor) at = this.#parents.get(at) ?? null;
    return at === ancestor;
  }
}

/**
 * What may have been meant is searched for when it is read: a sheet can miss a million times, and only a person wants it.
 * A class, since an accessor in an object literal gives each object a hidden class of its own.
 */
class UnknownTerm {
  readonly status = 'unknown';
  readonly #words: ReadonlyMap<string, Term> | undefined;
  readonly #word: string;

  constructor(words: ReadonlyMap<string, Term> | undefined, word: string) {
    this.#words = words;
    this.#word = word;
  }

  get suggestions(): readonly string[] {
    return this.#words === undefined ? [] : nearNames(namesOf(this.#words), this.#word);
  }
}

const ID_OF_STARTER: ReadonlyMap<string, number> = new Map(STARTER_TERMS.map(({ code }, index) => [code, index + 1]));

const CALLED_BY_CODE: ReadonlyMap<string, 'run' | 'pass'> = new Map(
  STARTER_TERMS.flatMap(({ code, called }) => (called === undefined ? [] : [[code, called] as const])),
);

let starter: Vocabulary | undefined;

/** The starter terms alone, with ids 1 to N in the order of `STARTER_TERMS`. */
export function starterVocabulary(): Vocabulary {
  starter ??= new Vocabulary(
    STARTER_TERMS.map(({ kind, code, name, parent, synonyms }, index) => ({
      id: index + 1,
      kind,
      code,
      name,
      parentId: parent === undefined ? null : (ID_OF_STARTER.get(parent) ?? null),
      starterId: null,
      synonyms,
    })),
  );
  return starter;
}

/**
 * Whether a run or a pass was called, as far as call family and concept fix it. A charted family decides, even where it
 * leaves the matter open (a run-pass option is neither), and whatever the concept's usual family is; without one, or
 * with one that this vocabulary does not know, the concept's parent does.
 */
export function calledRunOrPass(
  vocabulary: Vocabulary,
  callFamilyId: number | null,
  conceptId: number | null,
): 'run' | 'pass' | null {
  const family = callFamilyId === null ? null : vocabulary.canonicalId(callFamilyId);
  let at = family ?? (conceptId === null ? null : vocabulary.canonicalId(conceptId));
  while (at !== null) {
    const called = CALLED_BY_CODE.get(vocabulary.byId(at)?.code ?? '');
    if (called !== undefined) return called;
    at = vocabulary.parentId(at);
  }
  return null;
}

function canonicalOf({ id, starterId }: Term): number {
  return starterId ?? id;
}

function byUnique<Key, Row>(rows: readonly Row[], keyOf: (row: Row) => Key): ReadonlyMap<Key, Row> {
  const unique = new Map<Key, Row>();
  for (const row of rows) {
    const key = keyOf(row);
    if (unique.has(key)) {
      throw new DomainError('vocabulary.duplicate_term', `two terms have ${String(key)}`, { duplicate: key });
    }
    unique.set(key, row);
  }
  return unique;
}

/** Every word of one kind and the term it stands for; a clan's own words replace those of the starter terms. */
function wordsOf(rows: readonly Term[]): ReadonlyMap<string, Term> {
  const ofService = wordsOfOwner(rows.filter(({ code }) => code !== null));
  const ofClan = wordsOfOwner(rows.filter(({ code }) => code === null));
  return new Map([...ofService, ...ofClan]);
}

function wordsOfOwner(rows: readonly Term[]): ReadonlyMap<string, Term> {
  const words = new Map<string, Term>();
  for (const term of rows) {
    for (const text of [term.name, ...term.synonyms]) {
      const word = normaliseTerm(text);
      if (word === '') continue; // nothing but separators: an empty cell must not find it
      const other = words.get(word);
      if (other !== undefined && other !== term) {
        throw new DomainError('vocabulary.ambiguous_word', `"${text}" stands for "${other.name}" and "${term.name}"`, {
          kind: term.kind,
          word,
          termIds: [other.id, term.id],
        });
      }
      words.set(word, term);
    }
  }
  return words;
}

function canonicalParents(terms: ReadonlyMap<number, Term>): ReadonlyMap<number, number> {
  const parents = new Map<number, number>();
  for (const term of terms.values()) {
    requireStarter(term, terms);
    const parent = term.parentId === null ? null : requireParent(term, term.parentId, terms);
    // What a term that stands for another one names as its parent does not count.
    if (parent !== null && term.starterId === null) parents.set(term.id, canonicalOf(parent));
  }
  refuseCycles(parents);
  return parents;
}

function requireStarter({ id, kind, name, starterId }: Term, terms: ReadonlyMap<number, Term>): void {
  if (starterId === null) return;
  const target = terms.get(starterId);
  if (target?.kind === kind && target.code !== null && target.starterId === null) return;
  throw new DomainError('vocabulary.invalid_reference', `"${name}" stands for no starter term of its kind`, {
    id,
    starterId,
  });
}

function requireParent({ id, name }: Term, parentId: number, terms: ReadonlyMap<number, Term>): Term {
  const parent = terms.get(parentId);
  if (parent === undefined) {
    throw new DomainError('vocabulary.invalid_reference', `the parent of "${name}" is missing`, { id, parentId });
  }
  return parent;
}

function refuseCycles(parents: ReadonlyMap<number, number>): void {
  const rooted = new Set<number>();
  for (const id of parents.keys()) {
    const path = new Set<number>();
    for (let at: number | undefined = id; at !== undefined && !rooted.has(at); at = parents.get(at)) {
      if (path.has(at)) {
        throw new DomainError('vocabulary.cycle', 'a term is its own forebear', { termIds: [...path] });
      }
      path.add(at);
    }
    for (const passed of path) rooted.add(passed);
  }
}

function namesOf(words: ReadonlyMap<string, Term>): readonly (readonly [word: string, name: string])[] {
  return [...words].map(([word, { name }]) => [word, name]);
}
