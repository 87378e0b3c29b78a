import { Injectable } from '@nestjs/common';
import type { TermKind } from '#domain/charting/play-fields.js';
import { aTermOf } from '#domain/charting/read-cell.js';
import { Vocabulary } from '#domain/charting/vocabulary.js';
import { printed } from '../../common/printed.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { clanVocabulary, withoutOvertaken, type ClanVocabulary } from './clan-vocabulary.js';
import { readWords, TermsRepository, type TermRow } from './terms.repository.js';

const KEPT_VOCABULARIES = 200;

/** Words and what they stand for, to the clan that asks. */
@Injectable()
export class TermsService {
  /** Starter terms are append-only and change with a release, so a process reads them once. */
  private starterTerms: Promise<{ readonly terms: readonly TermRow[]; readonly alone: Vocabulary }> | null = null;
  private readonly kept = new Map<string, ClanVocabulary>();
  private readonly merged = new WeakMap<Vocabulary, ReadonlyMap<number, number>>();

  constructor(private readonly repository: TermsRepository) {}

  /**
   * The starter terms and the clan's own. Built anew only when the clan's terms changed.
   *
   * @param told - the clan's words, where another statement brought them along: see `TermsRepository.clanWords`
   */
  async vocabulary(db: ClanDatabase, told?: string): Promise<Vocabulary> {
    const { terms, alone } = await this.starter(db);
    const words = told ?? (await this.repository.clanWords(db));
    const known = this.kept.get(words);
    if (known !== undefined) return known.vocabulary;
    const built = clanVocabulary(terms, withoutOvertaken(alone, readWords(words)));
    if (this.kept.size >= KEPT_VOCABULARIES) this.kept.clear();
    this.kept.set(words, built);
    this.merged.set(built.vocabulary, built.merged);
    return built.vocabulary;
  }

  /** The starter terms, which every clan has. */
  async starter(db: ClanDatabase): Promise<{ readonly terms: readonly TermRow[]; readonly alone: Vocabulary }> {
    this.starterTerms ??= this.repository.starterTerms(db).then((terms) => ({ terms, alone: new Vocabulary(terms) }));
    return this.starterTerms.catch((error: unknown) => {
      this.starterTerms = null;
      throw error;
    });
  }

  /** The id that each of these ids counts as for the reader; foreign terms by the starter term they stand for. */
  async canonicalIds(
    db: ClanDatabase,
    vocabulary: Vocabulary,
    termIds: Iterable<number>,
  ): Promise<(termId: number) => number | null> {
    const starters = await this.foreign(db, vocabulary, termIds);
    const merged = this.mergedOf(vocabulary);
    return (termId) => vocabulary.canonicalId(merged.get(termId) ?? termId) ?? starters.get(termId) ?? null;
  }

  /** What each of these ids is called to the reader; null for another clan's term that stands for no starter term. */
  async names(
    db: ClanDatabase,
    vocabulary: Vocabulary,
    termIds: Iterable<number>,
  ): Promise<(termId: number) => string | null> {
    const starters = await this.foreign(db, vocabulary, termIds);
    const merged = this.mergedOf(vocabulary);
    return (termId) => {
      const own = vocabulary.byId(merged.get(termId) ?? termId);
      return (own ?? vocabulary.byId(starters.get(termId) ?? 0))?.name ?? null;
    };
  }

  /**
   * The term that a word stands for.
   *
   * @throws ApiError `request.invalid` with the field, and with what may have been meant
   */
  idOf(vocabulary: Vocabulary, kind: TermKind, field: string, word: string): number {
    const found = vocabulary.find(kind, word);
    if (found.status === 'found') return found.term.id;
    const expected = found.status === 'ask' ? found.question : aTermOf(kind, found.suggestions);
    const problem: FieldProblem = { field, found: printed(word), expected };
    throw new ApiError('request.invalid', 'a word is not in the vocabulary', { errors: [problem] });
  }

  /** Every id of the reader's vocabulary that counts as the same as this one, merged and retired terms too. */
  idsCountingAs(vocabulary: Vocabulary, kind: TermKind, termId: number): number[] {
    const merged = this.mergedOf(vocabulary);
    const counted = (id: number): number | null => vocabulary.canonicalId(merged.get(id) ?? id);
    const ids = [...vocabulary.rows(kind).map(({ id }) => id), ...merged.keys()];
    return ids.filter((id) => counted(id) === counted(termId));
  }

  private async foreign(
    db: ClanDatabase,
    vocabulary: Vocabulary,
    termIds: Iterable<number>,
  ): Promise<ReadonlyMap<number, number>> {
    const merged = this.mergedOf(vocabulary);
    const foreign = [...termIds].filter((id) => vocabulary.byId(merged.get(id) ?? id) === undefined);
    return foreign.length === 0 ? new Map<number, number>() : this.repository.foreignTerms(db, foreign);
  }

  private mergedOf(vocabulary: Vocabulary): ReadonlyMap<number, number> {
    return this.merged.get(vocabulary) ?? new Map<number, number>();
  }
}
