import { Injectable } from '@nestjs/common';
import { Vocabulary } from '#domain/charting/vocabulary.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { TermsRepository, type TermRow } from './terms.repository.js';

@Injectable()
export class TermsService {
  /** Starter terms are append-only and change with a release, so a process reads them once. */
  private starterTerms: Promise<readonly TermRow[]> | null = null;
  private readonly vocabularies = new Map<string, Vocabulary>();

  constructor(private readonly repository: TermsRepository) {}

  /** The starter terms and the clan's own. Built anew only when the clan's terms changed. */
  async vocabulary(db: ClanDatabase): Promise<Vocabulary> {
    this.starterTerms ??= this.repository.starterTerms(db);
    const starter = await this.starterTerms.catch((error: unknown) => {
      this.starterTerms = null;
      throw error;
    });
    const own = await this.repository.ownTerms(db);
    const key = JSON.stringify(own);
    const known = this.vocabularies.get(key);
    if (known !== undefined) return known;
    const vocabulary = new Vocabulary([...starter, ...own]);
    if (this.vocabularies.size >= KEPT_VOCABULARIES) this.vocabularies.clear();
    this.vocabularies.set(key, vocabulary);
    return vocabulary;
  }

  /** The id that each of these ids counts as for the reader; foreign terms by the starter term they stand for. */
  async canonicalIds(
    db: ClanDatabase,
    vocabulary: Vocabulary,
    termIds: Iterable<number>,
  ): Promise<(termId: number) => number | null> {
    const foreign = [...termIds].filter((id) => vocabulary.byId(id) === undefined);
    const starters = foreign.length === 0 ? new Map<number, number>() : await this.repository.foreignTerms(db, foreign);
    return (termId) => vocabulary.canonicalId(termId) ?? starters.get(termId) ?? null;
  }
}

const KEPT_VOCABULARIES = 200;
