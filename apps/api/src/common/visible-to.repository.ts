import { applyDecorators } from '@nestjs/common';
import { ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsOptional } from 'class-validator';
import type { ClanDatabase } from '../database/clan-transaction.js';
import { ApiError } from './problems.js';

/** Clan-mates meet in brackets: what a person means to do can be for that person alone. */
const VISIBLE_TO = ['clan', 'me'] as const;
export type VisibleTo = (typeof VISIBLE_TO)[number];

export const VISIBLE_TO_PROPERTY = {
  enum: VISIBLE_TO,
  example: 'clan',
  description: 'whether the whole clan reads it, or only the person who made it',
};

/** An input that says who is to read the row; the clan where it says nothing. */
export function IsVisibleTo(): PropertyDecorator {
  return applyDecorators(
    ApiPropertyOptional({ ...VISIBLE_TO_PROPERTY, default: 'clan' }),
    IsOptional(),
    IsIn(VISIBLE_TO),
  );
}

/** A column that says who reads a row: row-level security shows nobody the rows of another person. */
export const visibleToColumn = (scope = 'scope_id'): string =>
  `case when ${scope} = (select app.my_scope()) then 'me' else 'clan' end as "visibleTo"`;

/**
 * The scope for rows of that visibility.
 *
 * @throws ApiError `access.person_needed` when a program that stands for no person would keep something for itself
 */
export async function scopeFor(db: ClanDatabase, visibleTo: VisibleTo | null | undefined): Promise<number> {
  const [row] = await db.query<{ scope: number | null }>(
    `select case when $2 = 'me' then app.my_scope() else s.id end as scope
       from scope s where s.clan_id = $1 and s.kind = 'private'`,
    [db.clanId, visibleTo ?? 'clan'],
  );
  if (typeof row?.scope === 'number') return row.scope;
  throw new ApiError('access.person_needed', 'only a person, or a key that is personal, keeps rows for itself');
}
