import { Controller, Get, Param, Query, Req, Res } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { ApiError } from '../../common/problems.js';
import { readSecret } from '../../database/new-secret.js';
import { roundReportPage } from '../../rendering/page/round-report-page.js';
import { PaperQuery } from '../../common/paper-query.dto.js';
import { pageFrame, sendAs } from '../../common/page-policy.js';
import { reportContent } from './report-content.js';
import { RoundReportsService } from './round-reports.service.js';
import { READ_TYPES, sendReport } from './send-report.js';

/** Needs no key and no session: the link is what lets a reader in. */
@ApiTags('Sharing')
@Controller('v1/linked-reports')
export class LinkedReportController {
  constructor(private readonly reports: RoundReportsService) {}

  @Get(':token')
  @ApiOperation({ summary: 'The report that a link opens, in the same forms as by its id; films and names as shared' })
  @ApiOkResponse({ description: 'the report', content: reportContent(READ_TYPES) })
  async read(
    @Param('token') token: string,
    @Query() { paper }: PaperQuery,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const link = readSecret('link', token);
    if (link === null) throw new ApiError('link.refused', 'that is not the form of a link');
    const type = accepted(request, READ_TYPES);
    // Whoever holds the link may read it; a search engine need not.
    response.setHeader('X-Robots-Tag', 'noindex, nofollow');
    if (type === 'text/html') {
      const frame = pageFrame(paper ?? 'any');
      const page = roundReportPage(await this.reports.readLinkedPage(link.digest), frame);
      sendAs(response, type, page, frame);
      return;
    }
    sendReport(response, type, await this.reports.readLinked(link.digest));
  }
}
