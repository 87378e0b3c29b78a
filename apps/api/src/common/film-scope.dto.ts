import { ApiProperty } from '@nestjs/swagger';

/** How much of a game's film a chart covers; a part that is null is covered whole. */
export class FilmScopeResponse {
  @ApiProperty({ type: String, enum: ['home', 'away', null], nullable: true, example: null }) offense!:
    'home' | 'away' | null;
  @ApiProperty({ type: 'array', items: { type: 'integer' }, nullable: true, example: [3, 4] }) downs!:
    readonly number[] | null;
  @ApiProperty({ type: 'array', items: { type: 'integer' }, nullable: true, example: null }) quarters!:
    readonly number[] | null;
  @ApiProperty({ type: [String], nullable: true, example: null }) fields!: readonly string[] | null;
}
