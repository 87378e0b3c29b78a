import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { NumberPageQuery, PageLink } from '../../common/page.dto.js';

export const FEED_KINDS = ['bracket.changed'] as const;
export type FeedKind = (typeof FEED_KINDS)[number];

const OF_ONE_EVENT = {
  format: 'uuid',
  description: 'only of this event, which may be one that another clan published',
};

export class FeedQuery extends NumberPageQuery {
  @ApiPropertyOptional(OF_ONE_EVENT)
  @IsOptional()
  @IsUUID()
  eventId?: string;
}

export class FeedStreamQuery {
  @ApiPropertyOptional(OF_ONE_EVENT)
  @IsOptional()
  @IsUUID()
  eventId?: string;

  @ApiPropertyOptional({
    type: 'integer',
    minimum: 0,
    description: 'for a client that cannot send Last-Event-ID itself; 0 begins with the oldest entry that is kept',
  })
  @IsOptional()
  after?: string;
}

export class FeedEntryResponse {
  @ApiProperty({ type: 'integer', example: 42, description: "of the event's clan; a later entry has a larger one" })
  sequence!: number;
  @ApiProperty({ enum: FEED_KINDS, example: 'bracket.changed' }) kind!: FeedKind;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) at!: string;
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.event }) eventId!: string;
  @ApiProperty({
    type: [String],
    format: 'uuid',
    example: [EXAMPLE_IDS.match],
    description: 'what changed; with a hundred there may be more',
  })
  matchIds!: readonly string[];
}

export class FeedPage extends PageLink {
  @ApiProperty({ type: [FeedEntryResponse] }) items!: FeedEntryResponse[];
}
