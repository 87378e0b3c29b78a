import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsInt, IsOptional, IsString, Length, Max, Min } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';
import { ROLES, type Role } from '../../common/rights.js';

const ROLE = { enum: ROLES, example: 'analyst' };
const NOTE = { type: String, nullable: true, minLength: 1, maxLength: 80, example: 'for Sorrel' } as const;

export class InvitationInput {
  @ApiProperty({ ...ROLE, description: 'what whoever accepts becomes' })
  @IsIn(ROLES)
  role!: Role;

  @ApiPropertyOptional({ ...NOTE, description: 'for whom' })
  @IsOptional()
  @IsString()
  @Length(1, 80)
  note?: string | null;

  @ApiPropertyOptional({ type: 'integer', minimum: 1, maximum: 30, default: 7, description: 'how long the link works' })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(30)
  days?: number;
}

export class InvitationResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty(ROLE) role!: Role;
  @ApiProperty(NOTE) note!: string | null;
  @ApiProperty({ example: 'rbi_Q3eU4n', description: 'how the end of the link begins' }) prefix!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) createdAt!: string;
  @ApiProperty({ format: 'date-time', example: '2026-03-08T18:00:00Z' }) expiresAt!: string;
  @ApiProperty({ type: String, nullable: true, format: 'date-time', example: null }) acceptedAt!: string | null;
}

export class NewInvitation extends InvitationResponse {
  @ApiProperty({
    type: String,
    nullable: true,
    example: 'https://scouting.example/invitation/rbi_Q3eU4nVq0mX7yBz1fK2hTgW9sLpR6dJc8aNoZiEvYx5',
    description: 'shown this once and never again; null when the same request came before',
  })
  link!: string | null;
}

export class InvitationPage extends PageLink {
  @ApiProperty({ type: [InvitationResponse] }) items!: InvitationResponse[];
}
