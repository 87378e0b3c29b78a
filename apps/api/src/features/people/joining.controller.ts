import { Body, Controller, HttpCode, Post, Req, Res } from '@nestjs/common';
import { ApiCookieAuth, ApiCreatedResponse, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import type { Secret } from '../../database/new-secret.js';
import { WithSession } from '../access/person.js';
import { requireSameSite } from '../access/session-cookie.js';
import { withCookie } from './opened-session.js';
import { placeOf } from './sign-in-place.js';
import { InvitationPreview, InvitationShown, JoinAsInput, JoinInput, SessionResponse } from './people.dto.js';
import { PeopleService } from './people.service.js';

/** Accepting an invitation. It is sent in the body, since addresses are written down along the way. */
@ApiTags('People')
@Controller('v1')
export class JoiningController {
  constructor(private readonly people: PeopleService) {}

  @Post('invitation-preview')
  @HttpCode(200)
  @ApiOperation({ summary: 'Where an invitation leads; it is not used up' })
  @ApiOkResponse({ type: InvitationPreview })
  preview(@Body() shown: InvitationShown): Promise<InvitationPreview> {
    return this.people.preview(shown);
  }

  @Post('people')
  @ApiOperation({ summary: 'Accept an invitation as somebody new' })
  @ApiCreatedResponse({ type: SessionResponse })
  async join(
    @Body() input: JoinInput,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<SessionResponse> {
    requireSameSite(request);
    return withCookie(request, response, await this.people.join(input, placeOf(request).browser));
  }

  @Post('memberships')
  @ApiCookieAuth()
  @ApiOperation({ summary: 'Accept an invitation as who you are; the session goes on in that clan' })
  @ApiCreatedResponse({ type: SessionResponse })
  async joinAs(
    @WithSession() session: Secret,
    @Body() input: JoinAsInput,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<SessionResponse> {
    return withCookie(request, response, await this.people.joinAs(session, input));
  }
}
