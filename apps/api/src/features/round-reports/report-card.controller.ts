import { Controller, Get, Param, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { pageFrame, sendPage } from '../../common/page-policy.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { reportCardPage } from '../../rendering/page/report-card-page.js';
import { readableReportCard } from '../../rendering/report-card-sections.js';
import { readableMarkdown } from '../../rendering/round-report-markdown.js';
import { readableText } from '../../rendering/round-report-text.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { REPORT_CARD_CONTENT } from './report-card.content.js';
import { ReportCardQuery } from './report-card.dto.js';
import { ReportCardService } from './report-card.service.js';

const TYPES = ['application/json', 'text/markdown', 'text/plain', 'text/html'] as const;

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
    const type = accepted(request, TYPES);
    const card = await this.cards.read(credential, reportId, gameId ?? null);
    response.vary('Accept').setHeader('Cache-Control', 'private, no-cache');
    switch (type) {
      case 'text/html': {
        const frame = pageFrame(paper ?? 'any');
        sendPage(response, reportCardPage(card, frame), frame);
        break;
      }
      case 'text/markdown':
        response.type('text/markdown; charset=utf-8').send(readableMarkdown(readableReportCard(card)));
        break;
      case 'text/plain':
        response.type('text/plain; charset=utf-8').send(readableText(readableReportCard(card)));
        break;
      case 'application/json':
        response.json(card);
    }
  }
}
