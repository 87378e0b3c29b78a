import { ApiProperty } from '@nestjs/swagger';
import { PageLink } from '../../common/page.dto.js';

export class EventResponse {
  @ApiProperty({ format: 'uuid' }) id!: string;
  @ApiProperty({ example: 'lantern-cup' }) reference!: string;
  @ApiProperty() name!: string;
  @ApiProperty({ nullable: true, type: String, format: 'date' }) startsOn!: string | null;
  @ApiProperty({ enum: ['planned', 'running', 'finished'] }) status!: string;
  @ApiProperty({ nullable: true, type: String }) rulesVersion!: string | null;
  @ApiProperty({ description: "the clan's own record, not one that another clan published" }) own!: boolean;
}

export class EventPage extends PageLink {
  @ApiProperty({ type: [EventResponse] }) items!: EventResponse[];
}

export class MatchResponse {
  @ApiProperty({ example: 1 }) round!: number;
  @ApiProperty({ example: 'quarter-final' }) roundName!: string;
  @ApiProperty({ description: 'place within the round; places 2p-1 and 2p feed place p of the next round' })
  position!: number;
  @ApiProperty({ nullable: true, type: String }) home!: string | null;
  @ApiProperty({ nullable: true, type: String }) away!: string | null;
  @ApiProperty({ nullable: true, type: String, format: 'uuid' }) homePlayerId!: string | null;
  @ApiProperty({ nullable: true, type: String, format: 'uuid' }) awayPlayerId!: string | null;
  @ApiProperty({ nullable: true, type: String, format: 'uuid' }) winnerPlayerId!: string | null;
  @ApiProperty({ enum: ['open', 'ready', 'finished', 'forfeited'] }) status!: string;
}

export class BracketResponse {
  @ApiProperty({ type: EventResponse }) event!: EventResponse;
  @ApiProperty({ type: [MatchResponse] }) matches!: MatchResponse[];
}
