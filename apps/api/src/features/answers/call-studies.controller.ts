import { Controller, Get, Query, Req, Res } from '@nestjs/common';
import { ApiBearerAuth, ApiExtraModels, ApiOkResponse, ApiOperation, ApiTags, getSchemaPath } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { pageFrame, sendPage } from '../../common/page-policy.js';
import { readableCallStudy } from '../../rendering/call-study-sections.js';
import { callStudyPage } from '../../rendering/page/call-study-page.js';
import { readableMarkdown } from '../../rendering/round-report-markdown.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { CallStudyQuery, CallStudyResponse } from './call-studies.dto.js';
import { CALL_STUDY_EXAMPLE } from './call-studies.example.js';
import { CallStudiesService } from './call-studies.service.js';

const TYPES = ['application/json', 'text/markdown', 'text/html'] as const;
const TEXT = { schema: { type: 'string', example: '# Call study: counter read' } } as const;

@ApiTags('Scouting')
@ApiBearerAuth()
@ApiExtraModels(CallStudyResponse)
@Needs('profiles')
@Controller('v1/call-studies')
export class CallStudiesController {
  constructor(private readonly studies: CallStudiesService) {}

  @Get()
  @ApiOperation({
    summary: 'How a call works, who uses it, who has held it and how: JSON, Markdown, or a page to print and hand on',
  })
  @ApiOkResponse({
    description: 'the study',
    content: {
      'application/json': { schema: { $ref: getSchemaPath(CallStudyResponse) }, example: CALL_STUDY_EXAMPLE },
      'text/markdown': TEXT,
      'text/html': TEXT,
    },
  })
  async read(
    @WithCredential() credential: Credential,
    @Query() query: CallStudyQuery,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, TYPES);
    const { study, page } = await this.studies.read(credential, query);
    response.vary('Accept').setHeader('Cache-Control', 'private, no-cache');
    switch (type) {
      case 'text/html': {
        const frame = pageFrame(query.paper ?? 'any');
        sendPage(response, callStudyPage(page, frame), frame);
        break;
      }
      case 'text/markdown':
        response.type('text/markdown; charset=utf-8').send(readableMarkdown(readableCallStudy(study)));
        break;
      case 'application/json':
        response.json(study);
    }
  }
}
