import { Body, Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiCreatedResponse, ApiOkResponse, ApiOperation, ApiProduces, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { ApiError } from '../../common/problems.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { roundReportMarkdown } from '../../rendering/round-report-markdown.js';
import { roundReportText } from '../../rendering/round-report-text.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { MakeRoundReport } from './round-reports.dto.js';
import { RoundReportsService, type NamedReport } from './round-reports.service.js';

const TYPES = ['application/json', 'text/markdown', 'text/plain'];

@ApiTags('Scouting')
@ApiBearerAuth()
@Controller('v1/round-reports')
export class RoundReportsController {
  constructor(private readonly reports: RoundReportsService) {}

  @Post()
  @ApiOperation({ summary: 'Make the scouting report on the next opponent, and freeze it' })
  @ApiProduces(...TYPES)
  @ApiCreatedResponse({ description: 'the report; its address is in Location' })
  async make(
    @WithCredential() credential: Credential,
    @Body() wanted: MakeRoundReport,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = acceptedType(request);
    const made = await this.reports.make(credential, wanted);
    response.status(201).setHeader('Location', `/v1/round-reports/${made.id}`);
    send(response, type, made);
  }

  @Get(':reportId')
  @ApiOperation({ summary: 'A report as it was made: JSON, Markdown or plain text, as Accept asks' })
  @ApiProduces(...TYPES)
  @ApiOkResponse({ description: 'the report' })
  async read(
    @WithCredential() credential: Credential,
    @Param('reportId', UuidPipe) reportId: string,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = acceptedType(request);
    send(response, type, await this.reports.read(credential, reportId));
  }
}

function acceptedType(request: Request): string {
  const type = request.accepts(TYPES);
  if (type === false) throw new ApiError('request.not_acceptable', `a report can be had as ${TYPES.join(', ')}`);
  return type;
}

function send(response: Response, type: string, { id, report, names }: NamedReport): void {
  response.vary('Accept');
  switch (type) {
    case 'text/markdown':
      response.type('text/markdown; charset=utf-8').send(roundReportMarkdown(report, names));
      break;
    case 'text/plain':
      response.type('text/plain; charset=utf-8').send(roundReportText(report, names));
      break;
    default:
      response.json({ id, ...report, opponent: names.player(report.playerId) });
  }
}
