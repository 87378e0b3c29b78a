import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsInt, IsOptional, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';

export const USUAL_DAYS = 7;

export class ShareLinkInput {
  @ApiPropertyOptional({
    type: 'integer',
    minimum: 1,
    maximum: 90,
    default: USUAL_DAYS,
    description: 'how long it works',
  })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(90)
  days?: number;
}

export class ShareLinkResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty({ example: 'rbl_x7Qk2a', description: 'how it begins, so that it is found in a list' }) prefix!: string;
  @ApiProperty({ example: 'first key', description: 'key or member that made it' }) madeBy!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) createdAt!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-08T18:00:00Z' }) expiresAt!: string;
  @ApiProperty({ type: String, format: 'date-time', nullable: true, example: null }) revokedAt!: string | null;
}

export class NewShareLink extends ShareLinkResponse {
  @ApiProperty({
    type: String,
    nullable: true,
    example: 'http://127.0.0.1:3000/v1/linked-reports/rbl_x7Qk2aJ0c...',
    description: 'shown this once; null where the request came again',
  })
  link!: string | null;
}

export class ShareLinkPage extends PageLink {
  @ApiProperty({ type: [ShareLinkResponse] }) items!: ShareLinkResponse[];
}
