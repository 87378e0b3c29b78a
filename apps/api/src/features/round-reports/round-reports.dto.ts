import { ApiProperty, ApiPropertyOptional } from '@nestjs/swagger';
import { IsOptional, IsUUID } from 'class-validator';

export class MakeRoundReport {
  @ApiProperty({ format: 'uuid', description: 'the event' })
  @IsUUID()
  eventId!: string;

  @ApiPropertyOptional({ format: 'uuid', description: 'for whom; the next opponent follows from the bracket' })
  @IsOptional()
  @IsUUID()
  playerId?: string;

  @ApiPropertyOptional({ format: 'uuid', description: 'on whom, if not on whoever the bracket says is next' })
  @IsOptional()
  @IsUUID()
  opponentId?: string;
}
