import { Body, Controller, HttpCode, Param, Post, Req, Res } from '@nestjs/common';
import {
  ApiBearerAuth,
  ApiBody,
  ApiExtraModels,
  ApiOkResponse,
  ApiOperation,
  ApiTags,
  getSchemaPath,
} from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { accepted } from '../../common/accepted.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { LIVE_CAUTION, nextCallJson, nextCallLine } from './next-call-answer.js';
import { NextCallInput, NextCallResponse } from './next-call.dto.js';
import { NextCallService } from './next-call.service.js';

const TYPES = ['application/json', 'text/plain'] as const;

@ApiTags('Scouting')
@ApiBearerAuth()
@Needs('profiles')
@Controller('v1/players/:playerId/next-call')
export class NextCallController {
  constructor(private readonly calls: NextCallService) {}

  @Post()
  @HttpCode(200)
  @ApiOperation({
    summary: 'What this player calls next, with probabilities and the counts behind them; one line as text/plain',
    description: `${LIVE_CAUTION} Nothing that is sent is kept.`,
  })
  @ApiBody({ type: NextCallInput })
  @ApiExtraModels(NextCallResponse)
  @ApiOkResponse({
    description: 'the likeliest calls',
    content: {
      'application/json': { schema: { $ref: getSchemaPath(NextCallResponse) } },
      'text/plain': { schema: { type: 'string', example: 'Mossback on 3rd and 7-10: dropback pass 61 % (5 of 7)' } },
    },
  })
  async ask(
    @WithCredential() credential: Credential,
    @Param('playerId', UuidPipe) playerId: string,
    @Body() body: Record<string, unknown>,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    const type = accepted(request, TYPES);
    const answer = await this.calls.ask(credential, playerId, body);
    response.vary('Accept');
    if (type === 'text/plain') response.type('text/plain; charset=utf-8').send(nextCallLine(answer));
    else sendOnce(response, nextCallJson(answer));
  }
}

/** An answer to be used at once and never asked again: without the tag that the framework works out of its bytes. */
function sendOnce(response: Response, json: string): void {
  response
    .setHeader('Content-Type', 'application/json; charset=utf-8')
    .setHeader('Content-Length', Buffer.byteLength(json))
    .end(json);
}
