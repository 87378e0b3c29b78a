import { ApiProperty } from '@nestjs/swagger';
import { PageLink } from '../../common/page.dto.js';

export class ChartSummary {
  @ApiProperty({ format: 'uuid' }) id!: string;
  @ApiProperty({ example: 'main' }) reference!: string;
  @ApiProperty({ nullable: true, type: String }) chartedBy!: string | null;
  @ApiProperty() plays!: number;
  @ApiProperty() revision!: number;
  @ApiProperty({ type: Object, description: 'what of the film was charted; null parts are covered whole' })
  filmScope!: object;
}

export class GameResponse {
  @ApiProperty({ format: 'uuid' }) id!: string;
  @ApiProperty({ example: 'lantern-cup-r1-p3' }) reference!: string;
  @ApiProperty({ nullable: true, type: String, format: 'uuid' }) eventId!: string | null;
  @ApiProperty() home!: string;
  @ApiProperty() away!: string;
  @ApiProperty({ nullable: true, type: String, format: 'date-time' }) playedAt!: string | null;
  @ApiProperty({ enum: ['scrimmage', 'group', 'elimination'] }) importance!: string;
  @ApiProperty({ nullable: true, type: Number }) homeScore!: number | null;
  @ApiProperty({ nullable: true, type: Number }) awayScore!: number | null;
  @ApiProperty({ type: [ChartSummary] }) charts!: ChartSummary[];
}

export class GamePage extends PageLink {
  @ApiProperty({ type: [GameResponse] }) items!: GameResponse[];
}
