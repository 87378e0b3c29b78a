import { Body, Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiCreatedResponse, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { IDEMPOTENCY_KEY } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { roundReportPage } from '../../rendering/page/round-report-page.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { PaperQuery } from '../../common/paper-query.dto.js';
import { reportContent } from './report-content.js';
import { pageFrame, sendAs } from '../../common/page-policy.js';
import { MakeRoundReport } from './round-reports.dto.js';
import { RoundReportsService } from './round-reports.service.js';
import { READ_TYPES, sendReport, TYPES } from './send-report.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Controller('v1/round-reports')
export class RoundReportsController {
  constructor(private readonly reports: RoundReportsService) {}

  @Post()
  @ApiOperation({ summary: 'Make the scouting report on the next opponent, and freeze it' })
  @IDEMPOTENCY_KEY
  @ApiCreatedResponse({ description: 'the report; its address is in Location', content: reportContent(TYPES) })
  async make(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() wanted: MakeRoundReport,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, TYPES);
    const made = await this.reports.make(credential, creation, wanted);
    response.status(201).setHeader('Location', `/v1/round-reports/${made.id}`);
    sendReport(response, type, made);
  }

  @Get(':reportId')
  @Needs('profiles')
  @ApiOperation({
    summary:
      'A report as it was made: JSON, Markdown, plain text, a page to print, or its shares as CSV, as Accept asks',
  })
  @ApiOkResponse({ description: 'the report', content: reportContent(READ_TYPES) })
  async read(
    @WithCredential() credential: Credential,
    @Param('reportId', UuidPipe) reportId: string,
    @Query() { paper }: PaperQuery,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, READ_TYPES);
    if (type === 'text/html') {
      const frame = pageFrame(paper ?? 'any');
      const page = roundReportPage(await this.reports.readPage(credential, reportId), frame);
      sendAs(response, type, page, frame);
      return;
    }
    sendReport(response, type, await this.reports.read(credential, reportId));
  }
}
