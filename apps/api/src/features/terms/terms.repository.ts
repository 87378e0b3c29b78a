import { Injectable } from '@nestjs/common';
import type { TermKind } from '#domain/charting/play-fields.js';
import type { Term } from '#domain/charting/vocabulary.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';

/** Synonyms ride along as an array, so that a vocabulary is one query. */
const TERM_ROWS = `
  select t.id, t.kind, t.code, t.name, t.parent_id as "parentId", t.starter_id as "starterId",
         coalesce(array_agg(s.normalised order by s.normalised) filter (where s.normalised is not null), '{}') as synonyms
    from term t left join term_synonym s on s.term_id = t.id`;

@Injectable()
export class TermsRepository {
  starterTerms(db: ClanDatabase): Promise<TermRow[]> {
    return db.query<TermRow>(`${TERM_ROWS} where t.clan_id is null group by t.id order by t.id`, []);
  }

  ownTerms(db: ClanDatabase): Promise<TermRow[]> {
    return db.query<TermRow>(`${TERM_ROWS} where t.clan_id = $1 and t.retired_at is null group by t.id order by t.id`, [
      db.clanId,
    ]);
  }

  /** Starter terms that other clans' terms stand for; a term that stands for none is left out. */
  async foreignTerms(db: ClanDatabase, termIds: readonly number[]): Promise<ReadonlyMap<number, number>> {
    const rows = await db.query<{ termId: number; starterId: number }>(
      `select term_id as "termId", starter_id as "starterId" from app.foreign_terms($1::int[])`,
      [termIds],
    );
    return new Map(rows.map(({ termId, starterId }) => [termId, starterId]));
  }
}

export type TermRow = Term & { readonly kind: TermKind };
