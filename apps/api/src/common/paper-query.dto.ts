import { ApiPropertyOptional } from '@nestjs/swagger';
import { IsIn, IsOptional } from 'class-validator';
import type { Paper } from '../rendering/page/page-style.js';

const PAPERS = ['a4', 'letter'] as const satisfies readonly Paper[];

export class PaperQuery {
  @ApiPropertyOptional({
    enum: PAPERS,
    description: 'of a page that is printed without a dialogue; else the printer decides. Only for text/html',
  })
  @IsOptional()
  @IsIn(PAPERS)
  paper?: (typeof PAPERS)[number];
}
