import { Injectable } from '@nestjs/common';
import { DomainError } from '#domain/domain-error.js';
import { normaliseTerm } from '#domain/charting/normalise-term.js';
import { AuditRepository } from '../../common/audit.repository.js';
import { requireCurrent, type Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { etagOf } from '../../common/etag.js';
import { page } from '../../common/page.dto.js';
import { ApiError } from '../../common/problems.js';
import { found, Resources, type Changeable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { clanVocabulary } from './clan-vocabulary.js';
import { TermChange, type NewTerm, type TermPage, type TermResponse, type TermsQuery } from './terms.dto.js';
import { TermsRepository } from './terms.repository.js';
import { TermsService } from './terms.service.js';

/** Adding to the clan's dictionary, retiring from it, and making two terms count as one. */
@Injectable()
export class DictionaryService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: TermsRepository,
    private readonly terms: TermsService,
    private readonly audit: AuditRepository,
  ) {}

  list(credential: Credential, { after, limit, kind, own, word }: TermsQuery): Promise<TermPage> {
    const filter = { after: after ?? 0, kind: kind ?? null, own: own ?? null, word: word ?? null };
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, filter, limit + 1), limit, (term) => String(term.id)),
    );
  }

  read(credential: Credential, termId: number): Promise<TermResponse> {
    return this.transactions.run(credential, 'read', async (db) => this.visible(db, termId));
  }

  create(credential: Credential, creation: Creation, input: NewTerm): Promise<TermResponse> {
    return this.resources.create(credential, creation, async (db) => {
      await this.repository.lockVocabulary(db);
      await this.requireTargets(db, input.kind, input);
      const termId = await this.repository.insert(db, input);
      await this.settle(db);
      return this.visible(db, termId);
    });
  }

  change(credential: Credential, termId: number, change: Change): Promise<TermResponse> {
    return this.resources.change(credential, change, this.kept(termId));
  }

  /** From now on plays with the one count as the other; no play is rewritten, and `separate` takes it back. */
  merge(credential: Credential, termId: number, ifMatch: string, intoId: number): Promise<TermResponse> {
    return this.transactions.run(credential, 'write', async (db) => {
      await this.repository.lockVocabulary(db);
      const term = await this.own(db, termId);
      requireCurrent(ifMatch, etagOf(term));
      const into = await this.visible(db, intoId);
      if (into.kind !== term.kind || into.id === term.id || into.mergedIntoId !== null || into.retired) {
        throw new ApiError('resource.inconsistent', `${term.name} cannot count as ${into.name}`, {
          errors: [{ field: 'intoId', found: String(intoId), expected: `another living term of kind ${term.kind}` }],
        });
      }
      return this.merged(db, termId, intoId);
    });
  }

  separate(credential: Credential, termId: number, ifMatch: string): Promise<TermResponse> {
    return this.transactions.run(credential, 'write', async (db) => {
      await this.repository.lockVocabulary(db);
      requireCurrent(ifMatch, etagOf(await this.own(db, termId)));
      return this.merged(db, termId, null);
    });
  }

  private async merged(db: ClanDatabase, termId: number, intoId: number | null): Promise<TermResponse> {
    await this.repository.merge(db, termId, intoId);
    await this.settle(db);
    await this.audit.did(db, intoId === null ? 'term.separated' : 'term.merged', 'term', null, { termId, intoId });
    return this.visible(db, termId);
  }

  private async own(db: ClanDatabase, termId: number): Promise<TermResponse> {
    const term = await this.visible(db, termId);
    if (!term.own) throw new ApiError('term.fixed', 'a starter term stays what it is for every clan');
    return term;
  }

  private async visible(db: ClanDatabase, termId: number): Promise<TermResponse> {
    return found(await this.repository.find(db, termId), 'term');
  }

  private kept(id: number): Changeable<TermResponse, TermChange> {
    return {
      kind: 'term',
      id: null,
      details: { termId: id },
      input: TermChange,
      lock: async (db) => {
        await this.repository.lockVocabulary(db);
        return this.repository.find(db, id);
      },
      inputOf: (row) => without(row, 'id', 'kind', 'code', 'starterSynonyms', 'mergedIntoId', 'own'),
      write: async (db, input, before) => {
        if (before.own) {
          await this.requireTargets(db, before.kind, input);
          await this.repository.update(db, id, input);
        } else {
          requireOnlyWords(input, before);
        }
        await this.repository.replaceWords(db, id, input.synonyms ?? []);
        await this.settle(db);
      },
      read: (db) => this.repository.find(db, id),
    };
  }

  /** A term stands for a starter term of its kind, and rolls up to a term that the clan can read. */
  private async requireTargets(db: ClanDatabase, kind: string, { parentId, starterId }: TermChange): Promise<void> {
    const parent = parentId == null ? null : await this.repository.find(db, parentId);
    const starter = starterId == null ? null : await this.repository.find(db, starterId);
    const refuse = (field: string, found: number, expected: string): never => {
      throw new ApiError('resource.reference_unknown', 'it refers to no such term', {
        errors: [{ field, found: String(found), expected }],
      });
    };
    if (parentId != null && parent === null) refuse('parentId', parentId, 'a term that you can read');
    if (starterId != null && (starter === null || starter.own || starter.kind !== kind)) {
      refuse('starterId', starterId, `a starter term of kind ${kind}`);
    }
  }

  /** Every word must stand for one term after the change, and whoever reads the clan's plays must read them anew. */
  private async settle(db: ClanDatabase): Promise<void> {
    const { terms, alone } = await this.terms.starter(db);
    const clan = await this.repository.clanTerms(db);
    for (const { kind, own, id, synonyms } of clan) {
      for (const word of own ? [] : synonyms) {
        const other = alone.find(kind, word);
        if (other.status === 'found' && other.term.id !== id) throw taken(word, other.term.name);
      }
    }
    try {
      clanVocabulary(terms, clan);
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      const code = error.code === 'vocabulary.ambiguous_word' ? 'term.word_taken' : 'resource.inconsistent';
      throw new ApiError(code, error.message);
    }
    await this.repository.raiseRevisions(db);
  }
}

function taken(word: string, other: string): ApiError {
  return new ApiError('term.word_taken', `"${word}" stands for "${other}" already`);
}

function requireOnlyWords(input: TermChange, before: TermResponse): void {
  const same =
    normaliseTerm(input.name) === normaliseTerm(before.name) &&
    (input.parentId ?? null) === before.parentId &&
    (input.starterId ?? null) === before.starterId &&
    (input.meaning ?? null) === before.meaning &&
    (input.retired ?? false) === before.retired;
  if (!same) throw new ApiError('term.fixed', 'of a starter term only your own synonyms can be changed');
}
