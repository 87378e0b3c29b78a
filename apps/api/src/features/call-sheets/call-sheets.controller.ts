import { Controller, Headers, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { pageFrame } from '../../common/page-policy.js';
import { ReadsReadable, sendReadable } from '../../common/tagged-answer.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { CALL_SHEET_TYPES } from './call-sheet-body.js';
import { callSheetContent } from './call-sheet-content.js';
import { CallSheetQuery } from './call-sheets.dto.js';
import { CallSheetsService } from './call-sheets.service.js';

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/call-sheets')
export class CallSheetsController {
  constructor(private readonly sheets: CallSheetsService) {}

  @ReadsReadable(
    'The sheet to call the next game from, a page a side: JSON, Markdown, plain text or a page to print',
    'the sheet',
    callSheetContent(CALL_SHEET_TYPES),
  )
  async read(
    @WithCredential() credential: Credential,
    @Query() query: CallSheetQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, CALL_SHEET_TYPES);
    const frame = pageFrame(query.paper ?? 'any');
    sendReadable(response, await this.sheets.read(credential, query, { type, frame, heldTag }), type, frame);
  }
}
