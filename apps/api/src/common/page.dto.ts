import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsString, IsUUID, Length, Matches } from 'class-validator';
import { WholeNumber } from './query-number.js';

/** Which page of a list: the entries after a key, so that a page never shifts while rows come and go. */
class PageLimit {
  @WholeNumber({ minimum: 1, maximum: 200, default: 50 })
  limit = 50;

  @ApiPropertyOptional({ description: 'of every item only these fields, with commas between', example: 'id' })
  @IsOptional()
  @Matches(/^[A-Za-z]+(,[A-Za-z]+)*$/)
  fields?: string;
}

/** A page of a list that is ordered by name. */
export class NamePageQuery extends PageLimit {
  @ApiPropertyOptional({ description: '`next` of the page before' })
  @IsOptional()
  @IsString()
  @Length(1, 200)
  after?: string;
}

/** A page of a list that is ordered by id. */
export class IdPageQuery extends PageLimit {
  @ApiPropertyOptional({ format: 'uuid', description: '`next` of the page before' })
  @IsOptional()
  @IsUUID()
  after?: string;
}

/** A page of a list that is ordered by number. */
export class NumberPageQuery extends PageLimit {
  @WholeNumber({ minimum: 0, maximum: 2_147_483_647, description: '`next` of the page before' })
  after?: number;
}

export class PageLink {
  @ApiProperty({
    nullable: true,
    type: String,
    description: 'send it as `after` for the next page; null on the last',
    example: null,
  })
  next!: string | null;
}

/** A page of rows that were asked for with one more than its limit, which shows whether another page follows. */
export function page<Row>(
  rows: readonly Row[],
  limit: number,
  keyOf: (row: Row) => string,
): { items: Row[]; next: string | null } {
  const items = rows.slice(0, limit);
  const last = items.at(-1);
  return { items, next: rows.length > limit && last !== undefined ? keyOf(last) : null };
}
