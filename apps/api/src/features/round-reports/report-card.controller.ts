import { Controller, Get, Param, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { pageFrame, sendAs } from '../../common/page-policy.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { REPORT_CARD_TYPES, reportCardBody } from './report-card-body.js';
import { REPORT_CARD_CONTENT } from './report-card.content.js';
import { ReportCardQuery } from './report-card.dto.js';
import { ReportCardService } from './report-card.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Controller('v1/round-reports/:reportId/report-card')
export class ReportCardController {
  constructor(private readonly cards: ReportCardService) {}

  @Get()
  @Needs('profiles')
  @ApiOperation({
    summary: 'How a report did once its match is charted: JSON, Markdown, plain text, or a page, as Accept asks',
    description: 'Judges what the report froze when it was made. One match cannot confirm or refute a report.',
  })
  @ApiOkResponse({ description: 'the report card', content: REPORT_CARD_CONTENT })
  async read(
    @WithCredential() credential: Credential,
    @Param('reportId', UuidPipe) reportId: string,
    @Query() { gameId, paper }: ReportCardQuery,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, REPORT_CARD_TYPES);
    const card = await this.cards.read(credential, reportId, gameId ?? null);
    response.setHeader('Cache-Control', 'private, no-cache');
    const frame = pageFrame(paper ?? 'any');
    sendAs(response, type, reportCardBody(card, type, frame), frame);
  }
}
