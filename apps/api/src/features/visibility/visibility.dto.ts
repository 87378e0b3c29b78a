import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayUnique,
  IsArray,
  IsBoolean,
  IsIn,
  IsOptional,
  IsUUID,
  ValidateNested,
} from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';

const CHOICES = ['private', 'shared', 'public', 'event'] as const;
const READERS = ['private', 'shared', 'public'] as const;

export type Choice = (typeof CHOICES)[number];

const CLAN = { format: 'uuid', example: EXAMPLE_IDS.clan, description: 'its id, as that clan tells you' } as const;
const RESHARE = { default: false, description: 'whether it may show this on by a link to a report' } as const;

export class SharedWithInput {
  @ApiProperty(CLAN)
  @IsUUID()
  clanId!: string;

  @ApiPropertyOptional(RESHARE)
  @IsOptional()
  @IsBoolean()
  mayReshare?: boolean;
}

export class RecordVisibilityInput {
  @ApiProperty({
    enum: CHOICES,
    example: 'shared',
    description:
      'private: your clan alone; shared: the named clans too; public: every clan; event: a game is read by whoever reads its event',
  })
  @IsIn(CHOICES)
  visibility!: Choice;

  @ApiPropertyOptional({ type: [SharedWithInput], description: 'with whom; only where it is shared' })
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(100)
  @ArrayUnique(({ clanId }: SharedWithInput) => clanId)
  @ValidateNested({ each: true })
  @Type(() => SharedWithInput)
  clans?: SharedWithInput[] | null;
}

export class SharedWithResponse {
  @ApiProperty(CLAN) clanId!: string;
  @ApiProperty(RESHARE) mayReshare!: boolean;
}

export class RecordVisibility {
  @ApiProperty({ enum: CHOICES, example: 'shared', description: 'what was chosen' }) visibility!: Choice;
  @ApiProperty({ type: [SharedWithResponse] }) clans!: SharedWithResponse[];
  @ApiProperty({
    enum: READERS,
    example: 'shared',
    description: 'how widely it is read now: a player is read by whoever reads a game or an event with the player too',
  })
  readBy!: (typeof READERS)[number];
}
