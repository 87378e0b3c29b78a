import { ApiProperty } from '@nestjs/swagger';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';
import { FEED_KINDS } from '../feed/feed.service.js';

/** The kind of a message that tells of nothing. */
export const TEST_KIND = 'webhook.tested';
const STATES = ['waiting', 'delivered', 'failed', 'withheld'] as const;
export type DeliveryState = (typeof STATES)[number];

const WHEN = { type: String, nullable: true, format: 'date-time' } as const;

export class DeliveryResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.chart, description: 'what the message has as webhook-id' })
  id!: string;
  @ApiProperty({ enum: [...FEED_KINDS, TEST_KIND], example: 'bracket.changed' }) kind!: string;
  @ApiProperty({ type: String, nullable: true, format: 'uuid', example: EXAMPLE_IDS.event })
  eventId!: string | null;
  @ApiProperty({
    enum: STATES,
    example: 'delivered',
    description: '`withheld`: by the time that it was to be sent the clan could not see the event any more',
  })
  state!: DeliveryState;
  @ApiProperty({ type: 'integer', minimum: 0, example: 1 }) attempts!: number;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) queuedAt!: string;
  @ApiProperty({ ...WHEN, example: null, description: 'null when none is due' }) nextAttemptAt!: string | null;
  @ApiProperty({ ...WHEN, example: '2026-03-01T18:00:01Z' }) attemptedAt!: string | null;
  @ApiProperty({ type: 'integer', nullable: true, example: 204, description: 'of the last attempt, where one came' })
  lastStatus!: number | null;
  @ApiProperty({ type: String, nullable: true, example: null, description: 'what was wrong with the last attempt' })
  lastProblem!: string | null;
}

export class DeliveryPage extends PageLink {
  @ApiProperty({ type: [DeliveryResponse] }) items!: DeliveryResponse[];
}
