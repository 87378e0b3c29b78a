import { Controller, Get, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { pageFrame, sendPage } from '../../common/page-policy.js';
import { CODE_VERSION } from '../../config/code-version.js';
import { readableCallSheet } from '../../rendering/call-sheet-sections.js';
import { callSheetPage } from '../../rendering/page/call-sheet-page.js';
import { readableMarkdown } from '../../rendering/round-report-markdown.js';
import { readableText } from '../../rendering/round-report-text.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { callSheetContent } from './call-sheet-content.js';
import { CallSheetQuery } from './call-sheets.dto.js';
import { CallSheetsService } from './call-sheets.service.js';

const TYPES = ['application/json', 'text/markdown', 'text/plain', 'text/html'] as const;

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/call-sheets')
export class CallSheetsController {
  constructor(private readonly sheets: CallSheetsService) {}

  @Get()
  @ApiOperation({
    summary: 'The sheet to call the next game from, a page a side: JSON, Markdown, plain text or a page to print',
  })
  @ApiOkResponse({ description: 'the sheet', content: callSheetContent(TYPES) })
  async read(
    @WithCredential() credential: Credential,
    @Query() query: CallSheetQuery,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, TYPES);
    const read = await this.sheets.read(credential, query);
    response.vary('Accept').setHeader('Cache-Control', 'private, no-cache');
    switch (type) {
      case 'text/html': {
        const frame = pageFrame(query.paper ?? 'any');
        sendPage(response, callSheetPage(read, frame), frame);
        break;
      }
      case 'text/markdown':
        response.type('text/markdown; charset=utf-8').send(readableMarkdown(readableCallSheet(read)));
        break;
      case 'text/plain':
        response.type('text/plain; charset=utf-8').send(readableText(readableCallSheet(read)));
        break;
      case 'application/json': {
        const { sheet, playerId, opponentId, eventId, round, charts, names } = read;
        const opponent = names.player(opponentId);
        response.json({ playerId, opponentId, opponent, eventId, round, codeVersion: CODE_VERSION, charts, sheet });
      }
    }
  }
}
