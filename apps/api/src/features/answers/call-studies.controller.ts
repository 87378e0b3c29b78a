import { Controller, Headers, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiExtraModels, ApiTags, getSchemaPath } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { pageFrame } from '../../common/page-policy.js';
import { ReadsReadable, sendReadable } from '../../common/tagged-answer.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { CallStudyQuery, CallStudyResponse } from './call-studies.dto.js';
import { CALL_STUDY_EXAMPLE } from './call-studies.example.js';
import { CALL_STUDY_TYPES } from './call-study-body.js';
import { CallStudiesService } from './call-studies.service.js';

const TEXT = { schema: { type: 'string', example: '# Call study: counter read' } } as const;

@ApiTags('Scouting')
@ApiBearerAuth()
@ApiExtraModels(CallStudyResponse)
@Needs('profiles')
@Controller('v1/call-studies')
export class CallStudiesController {
  constructor(private readonly studies: CallStudiesService) {}

  @ReadsReadable(
    'How a call works, who uses it, who has held it and how: JSON, Markdown, or a page to print and hand on',
    'the study',
    {
      'application/json': { schema: { $ref: getSchemaPath(CallStudyResponse) }, example: CALL_STUDY_EXAMPLE },
      'text/markdown': TEXT,
      'text/html': TEXT,
    },
  )
  async read(
    @WithCredential() credential: Credential,
    @Query() query: CallStudyQuery,
    @Headers('if-none-match') heldTag: string | undefined,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, CALL_STUDY_TYPES);
    const frame = pageFrame(query.paper ?? 'any');
    sendReadable(response, await this.studies.read(credential, query, { type, frame, heldTag }), type, frame);
  }
}
