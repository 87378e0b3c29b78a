import { ApiProperty } from '@nestjs/swagger';
import { IsIn, IsUUID } from 'class-validator';
import { EXAMPLE_IDS } from '../../common/examples.js';
import { PageLink } from '../../common/page.dto.js';
import { ROLES, type Role } from '../../common/rights.js';

const ROLE = { enum: ROLES, example: 'analyst' };

export class MemberChange {
  @ApiProperty(ROLE)
  @IsIn(ROLES)
  role!: Role;
}

export class MemberChoice {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.opponent, description: 'a member of the clan' })
  @IsUUID()
  memberId!: string;
}

export class MemberResponse {
  @ApiProperty({ format: 'uuid', example: EXAMPLE_IDS.player }) id!: string;
  @ApiProperty({ example: 'Marlow' }) name!: string;
  @ApiProperty(ROLE) role!: Role;
  @ApiProperty({ format: 'date-time', example: '2026-03-01T18:00:00Z' }) joinedAt!: string;
}

export class MemberPage extends PageLink {
  @ApiProperty({ type: [MemberResponse] }) items!: MemberResponse[];
}
