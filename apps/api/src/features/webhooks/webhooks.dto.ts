import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsBoolean, IsOptional, IsString, IsUUID, Length } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';

const ENDINGS = ['turned off', 'receiver gone', 'schedule used up', 'maker without right'] as const;
export type Ending = (typeof ENDINGS)[number];

const URL_PROPERTY = { minLength: 1, maxLength: 2000, example: 'https://bot.example/roundbook' };
const OF_EVENT = {
  ...{ type: String, format: 'uuid', nullable: true, example: EXAMPLE_IDS.event },
  description: 'only of this event, which may be one that another clan published; null for every event of the clan',
} as const;

export class WebhookInput {
  @ApiProperty({ ...URL_PROPERTY, description: 'where messages are posted to; https' })
  @IsString()
  @Length(1, 2000)
  url!: string;

  @ApiPropertyOptional({ ...OF_EVENT, default: null })
  @IsOptional()
  @IsUUID()
  eventId?: string | null;

  @ApiPropertyOptional({
    type: Boolean,
    default: true,
    description: 'false sends nothing; true after it ended begins again',
  })
  @IsOptional()
  @IsBoolean()
  enabled?: boolean | null;
}

const WHEN = { type: String, nullable: true, format: 'date-time', example: null } as const;

export class WebhookResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty(URL_PROPERTY) url!: string;
  @ApiProperty(OF_EVENT) eventId!: string | null;
  @ApiProperty({ example: true }) enabled!: boolean;
  @ApiProperty({ type: String, enum: ENDINGS, nullable: true, example: null, description: 'why nothing is sent' })
  endedBecause!: Ending | null;
  @ApiProperty(WHEN) endedAt!: string | null;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00.000000Z' }) secretSince!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) createdAt!: string;
}

export class NewWebhook extends WebhookResponse {
  @ApiProperty({
    type: String,
    nullable: true,
    example: 'whsec_C2FVsBQIhrscChlQIMV+b5sSYspob7oDQz3fGoBDNm0=',
    description: 'what messages are signed with, shown this once; null when the same request came before',
  })
  secret!: string | null;
}

export class WebhookPage extends PageLink {
  @ApiProperty({ type: [WebhookResponse] }) items!: WebhookResponse[];
}
