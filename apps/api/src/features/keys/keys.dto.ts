import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import {
  ArrayMinSize,
  ArrayUnique,
  IsBoolean,
  IsIn,
  IsInt,
  IsOptional,
  IsString,
  Length,
  Max,
  Min,
} from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';
import { RIGHTS, type Right } from '../../common/rights.js';

const NAME = { minLength: 1, maxLength: 80, example: 'dashboard on the wall' };
const SCOPES = {
  enum: RIGHTS,
  isArray: true,
  uniqueItems: true,
  minItems: 1,
  example: ['profiles'],
  description:
    '`profiles`: read what is computed of players; `read`: read the archive too; `write`: chart and keep records; ' +
    '`manage`: everything',
};

export class KeyInput {
  @ApiProperty(NAME)
  @IsString()
  @Length(1, 80)
  name!: string;

  @ApiProperty(SCOPES)
  @ArrayMinSize(1)
  @ArrayUnique()
  @IsIn(RIGHTS, { each: true })
  scopes!: Right[];

  @ApiPropertyOptional({
    type: 'integer',
    nullable: true,
    minimum: 1,
    maximum: 3650,
    default: 90,
    description: 'after how many days it expires; null for never',
  })
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(3650)
  days?: number | null;

  @ApiPropertyOptional({ default: false, description: 'whether it also reads and writes rows that only you can see' })
  @IsOptional()
  @IsBoolean()
  personal?: boolean;
}

const WHEN = { type: String, nullable: true, format: 'date-time' } as const;

export class KeyResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.match }) id!: string;
  @ApiProperty(NAME) name!: string;
  @ApiProperty({ example: 'rbk_Q3eU4n', description: 'its first characters' }) prefix!: string;
  @ApiProperty(SCOPES) scopes!: Right[];
  @ApiProperty({ example: false }) personal!: boolean;
  @ApiProperty({ type: String, nullable: true, example: 'Marlow', description: 'null for the first key of a clan' })
  madeBy!: string | null;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) createdAt!: string;
  @ApiProperty({ ...WHEN, example: '2026-05-30T18:00:00Z' }) expiresAt!: string | null;
  @ApiProperty({ ...WHEN, example: null, description: 'to the minute' }) lastUsedAt!: string | null;
  @ApiProperty({ ...WHEN, example: null }) revokedAt!: string | null;
}

export class NewKey extends KeyResponse {
  @ApiProperty({
    type: String,
    nullable: true,
    example: 'rbk_Q3eU4nVq0mX7yBz1fK2hTgW9sLpR6dJc8aNoZiEvYx5',
    description: 'the key, shown this once and never again; null when the same request came before',
  })
  key!: string | null;
}

export class KeyPage extends PageLink {
  @ApiProperty({ type: [KeyResponse] }) items!: KeyResponse[];
}
