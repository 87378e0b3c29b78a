import { ApiProperty } from '@nestjs/swagger';
import { PageLink } from '../../common/page.dto.js';

export class PlayerResponse {
  @ApiProperty({ format: 'uuid' }) id!: string;
  @ApiProperty() handle!: string;
}

export class PlayerPage extends PageLink {
  @ApiProperty({ type: [PlayerResponse] }) items!: PlayerResponse[];
}
