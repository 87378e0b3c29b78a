import { Injectable } from '@nestjs/common';
import { normaliseTerm } from '#domain/charting/normalise-term.js';
import type { TermKind } from '#domain/charting/play-fields.js';
import type { Term } from '#domain/charting/vocabulary.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { NewTerm, TermChange, TermResponse } from './terms.dto.js';

export type TermRow = Term & { readonly kind: TermKind };

/** A term of the clan, or a starter term for which it has words of its own. */
export interface ClanTermRow extends TermRow {
  readonly own: boolean;
  readonly retired: boolean;
  readonly mergedIntoId: number | null;
}

export interface TermFilter {
  readonly after: number;
  readonly kind: string | null;
  readonly own: boolean | null;
  readonly word: string | null;
}

const WORDS = `coalesce(array_agg(s.normalised order by s.normalised) filter (where s.normalised is not null), '{}')`;
const TERM = `t.id, t.kind, t.code, t.name, t.parent_id as "parentId", t.starter_id as "starterId"`;

const LISTED = `
  select ${TERM},
         array(select s.normalised from term_synonym s where s.term_id = t.id and s.clan_id = $1 order by 1) as synonyms,
         array(select s.normalised from term_synonym s where s.term_id = t.id and s.clan_id is null order by 1)
           as "starterSynonyms",
         t.meaning, t.retired_at is not null as retired, t.merged_into_id as "mergedIntoId", t.clan_id is not null as own
    from term t`;

@Injectable()
export class TermsRepository {
  /** What every clan has. Without any clan's own words, since a process reads them once for all. */
  starterTerms(db: ClanDatabase): Promise<TermRow[]> {
    return db.query<TermRow>(
      `select ${TERM}, ${WORDS} as synonyms
         from term t left join term_synonym s on s.term_id = t.id and s.clan_id is null
        where t.clan_id is null group by t.id order by t.id`,
      [],
    );
  }

  /** The clan's terms, retired and merged ones too, and the starter terms for which it has words of its own. */
  async clanTerms(db: ClanDatabase): Promise<ClanTermRow[]> {
    return readWords(await this.clanWords(db));
  }

  /** The same as one text for `readWords`, by which whoever has read it before need only compare. */
  async clanWords(db: ClanDatabase): Promise<string> {
    const [row] = await db.query<{ words: string }>(`select app.clan_words($1) as words`, [db.clanId]);
    if (row === undefined) throw new Error('the words of the clan were not told');
    return row.words;
  }

  /** Starter terms that other clans' terms stand for; a term that stands for none is left out. */
  async foreignTerms(db: ClanDatabase, termIds: readonly number[]): Promise<ReadonlyMap<number, number>> {
    const rows = await db.query<{ termId: number; starterId: number }>(
      `select term_id as "termId", starter_id as "starterId" from app.foreign_terms($1::int[])`,
      [termIds],
    );
    return new Map(rows.map(({ termId, starterId }) => [termId, starterId]));
  }

  list(db: ClanDatabase, { after, kind, own, word }: TermFilter, limit: number): Promise<TermResponse[]> {
    return db.query<TermResponse>(
      `${LISTED}
        where t.id > $2 and ($3::text is null or t.kind = $3) and ($4::boolean is null or (t.clan_id is not null) = $4)
          and ($5::text is null or t.normalised_name = $5
               or exists (select from term_synonym s where s.term_id = t.id and s.normalised = $5))
        order by t.id limit $6`,
      [db.clanId, after, kind, own, word === null ? null : normaliseTerm(word), limit],
    );
  }

  async find(db: ClanDatabase, termId: number): Promise<TermResponse | null> {
    const rows = await db.query<TermResponse>(`${LISTED} where t.id = $2`, [db.clanId, termId]);
    return rows[0] ?? null;
  }

  /** One change of a clan's words at a time: what a word stands for depends on all of them. */
  async lockVocabulary(db: ClanDatabase): Promise<void> {
    await db.query(`select pg_advisory_xact_lock(hashtextextended('vocabulary ' || $1::text, 0))`, [db.clanId]);
  }

  async insert(db: ClanDatabase, input: NewTerm): Promise<number> {
    const rows = await db.query<{ id: number }>(
      `insert into term (clan_id, kind, name, normalised_name, parent_id, starter_id, meaning, retired_at)
       values ($1, $2, $3, $4, $5, $6, $7, case when $8::boolean then now() end) returning id`,
      [db.clanId, input.kind, ...valuesOf(input)],
    );
    const termId = rows[0]?.id ?? 0;
    await this.insertWords(db, termId, input.synonyms ?? []);
    return termId;
  }

  async update(db: ClanDatabase, termId: number, input: TermChange): Promise<void> {
    await db.query(
      `update term set name = $3, normalised_name = $4, parent_id = $5, starter_id = $6, meaning = $7,
                       retired_at = case when $8::boolean then coalesce(retired_at, now()) end
        where clan_id = $1 and id = $2`,
      [db.clanId, termId, ...valuesOf(input)],
    );
  }

  async replaceWords(db: ClanDatabase, termId: number, words: readonly string[]): Promise<void> {
    await db.query(`delete from term_synonym where clan_id = $1 and term_id = $2`, [db.clanId, termId]);
    await this.insertWords(db, termId, words);
  }

  /** What was merged into a term that is merged now follows it: a merger has one step. */
  async merge(db: ClanDatabase, termId: number, intoId: number | null): Promise<void> {
    await db.query(
      `update term set merged_into_id = $3 where clan_id = $1 and (id = $2 or $3::int is not null and merged_into_id = $2)`,
      [db.clanId, termId, intoId],
    );
  }

  /** Whatever the clan's terms stand for changes how all of its plays are read, by itself and by others. */
  async raiseRevisions(db: ClanDatabase): Promise<void> {
    await db.query(`select app.raise_scope_revision(app.own_scopes())`, []);
  }

  private async insertWords(db: ClanDatabase, termId: number, words: readonly string[]): Promise<void> {
    const normalised = [...new Set(words.map(normaliseTerm))];
    if (normalised.length === 0) return;
    await db.query(
      `insert into term_synonym (clan_id, term_id, kind, normalised)
       select $1, t.id, t.kind, w from term t, unnest($3::text[]) w where t.id = $2`,
      [db.clanId, termId, normalised],
    );
  }
}

function valuesOf(input: TermChange): readonly unknown[] {
  return [
    input.name.trim(),
    normaliseTerm(input.name),
    input.parentId ?? null,
    input.starterId ?? null,
    input.meaning ?? null,
    input.retired ?? false,
  ];
}

/** What `app.clan_words` told. */
export function readWords(words: string): ClanTermRow[] {
  return JSON.parse(words) as ClanTermRow[];
}
