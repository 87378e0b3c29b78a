import { normaliseTerm } from '#domain/charting/normalise-term.js';
import { Vocabulary } from '#domain/charting/vocabulary.js';
import type { ClanTermRow, TermRow } from './terms.repository.js';

/** The words of one clan, and as what its merged terms count. */
export interface ClanVocabulary {
  readonly vocabulary: Vocabulary;
  /** Merged term -> the term that it counts as. */
  readonly merged: ReadonlyMap<number, number>;
}

/**
 * Starter terms and a clan's own as one vocabulary. The words of a merged term lead to the term that it counts as. A
 * retired term keeps its place, since plays carry it, but is called so and is not found by its old words.
 *
 * @throws DomainError as `Vocabulary` does, when a word stands for two terms or a term is its own forebear
 */
export function clanVocabulary(starter: readonly TermRow[], clan: readonly ClanTermRow[]): ClanVocabulary {
  const merged = new Map(clan.flatMap(({ id, mergedIntoId }) => (mergedIntoId === null ? [] : [[id, mergedIntoId]])));
  const words = new Map<number, string[]>();
  const add = (termId: number, more: readonly string[]): void => {
    words.set(termId, [...(words.get(termId) ?? []), ...more]);
  };
  for (const { id, own, name, synonyms, mergedIntoId } of clan) {
    if (mergedIntoId !== null) add(mergedIntoId, [name, ...synonyms]);
    else if (!own) add(id, synonyms);
  }
  const withWords = (term: TermRow): TermRow => {
    const more = words.get(term.id);
    return more === undefined ? term : { ...term, synonyms: [...term.synonyms, ...more] };
  };
  const own = clan.filter((term) => term.own && term.mergedIntoId === null);
  const terms = [
    ...starter.map(withWords),
    ...own.map((term) =>
      term.retired ? { ...term, name: `${term.name} (retired)`, synonyms: words.get(term.id) ?? [] } : withWords(term),
    ),
  ];
  return { vocabulary: new Vocabulary(terms), merged };
}

/**
 * The clan's rows without words that a starter term of another meaning has got since: the list of starter terms grows
 * with releases, and a clan's vocabulary must stay readable.
 */
export function withoutOvertaken(starter: Vocabulary, clan: readonly ClanTermRow[]): readonly ClanTermRow[] {
  return clan.map((term) => {
    const target = term.own ? term.mergedIntoId : term.id;
    if (target === null || starter.byId(target) === undefined) return term;
    const free = (word: string): boolean => {
      const found = starter.find(term.kind, word);
      return found.status !== 'found' || found.term.id === target;
    };
    const name = !term.own || free(term.name) ? term.name : '';
    return { ...term, name, synonyms: term.synonyms.filter((word) => free(normaliseTerm(word))) };
  });
}
