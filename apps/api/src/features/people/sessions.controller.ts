import { Body, Controller, Delete, Get, HttpCode, Param, Post, Put, Req, Res } from '@nestjs/common';
import {
  ApiCookieAuth,
  ApiCreatedResponse,
  ApiNoContentResponse,
  ApiOkResponse,
  ApiOperation,
  ApiTags,
} from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { UuidPipe } from '../../common/uuid.pipe.js';
import type { Secret } from '../../database/new-secret.js';
import { WithSession } from '../access/person.js';
import { clearSessionCookie, requireSameSite, sessionToken } from '../access/session-cookie.js';
import { withCookie } from './opened-session.js';
import { placeOf } from './sign-in-place.js';
import {
  ClanChoice,
  OwnSessions,
  PassphraseChange,
  PersonErasure,
  SessionResponse,
  SignInInput,
  SignUpInput,
} from './people.dto.js';
import { PeopleService } from './people.service.js';

/** Signing in and out. What opens a session answers with its cookie. */
@ApiTags('People')
@Controller('v1')
export class SessionsController {
  constructor(private readonly people: PeopleService) {}

  @Post('sign-up')
  @ApiOperation({ summary: 'Make the first clan of a fresh service, and become its owner' })
  @ApiCreatedResponse({ type: SessionResponse })
  async signUp(
    @Body() input: SignUpInput,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<SessionResponse> {
    requireSameSite(request);
    return withCookie(request, response, await this.people.signUp(input, placeOf(request).browser));
  }

  @Post('session')
  @ApiOperation({ summary: 'Sign in' })
  @ApiCreatedResponse({ type: SessionResponse })
  async signIn(
    @Body() input: SignInInput,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<SessionResponse> {
    requireSameSite(request);
    const opened = await this.people.signIn(input, placeOf(request), sessionToken(request));
    return withCookie(request, response, opened);
  }

  @Get('session')
  @ApiCookieAuth()
  @ApiOperation({ summary: 'Who has signed in, in which clans, and the token that changes need' })
  @ApiOkResponse({ type: SessionResponse })
  read(@WithSession() session: Secret, @Res({ passthrough: true }) response: Response): Promise<SessionResponse> {
    response.setHeader('Cache-Control', 'no-store');
    return this.people.read(session);
  }

  @Delete('session')
  @ApiCookieAuth()
  @HttpCode(204)
  @ApiOperation({ summary: 'Sign out' })
  @ApiNoContentResponse({ description: 'the session has ended' })
  async signOut(
    @WithSession() session: Secret,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<void> {
    await this.people.signOut(session);
    clearSessionCookie(request, response);
  }

  @Put('session/clan')
  @ApiCookieAuth()
  @ApiOperation({ summary: 'Go on in another clan of yours; the session gets another token' })
  @ApiOkResponse({ type: SessionResponse })
  async moveTo(
    @WithSession() session: Secret,
    @Body() choice: ClanChoice,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<SessionResponse> {
    return withCookie(request, response, await this.people.moveTo(session, choice));
  }

  @Get('sessions')
  @ApiCookieAuth()
  @ApiOperation({ summary: 'Where you have signed in, the last used first' })
  @ApiOkResponse({ type: OwnSessions })
  list(@WithSession() session: Secret): Promise<OwnSessions> {
    return this.people.list(session);
  }

  @Delete('sessions/:sessionId')
  @ApiCookieAuth()
  @HttpCode(204)
  @ApiOperation({ summary: 'End a session of yours; it opens nothing from the next request on' })
  @ApiNoContentResponse({ description: 'the session has ended' })
  endSession(@WithSession() session: Secret, @Param('sessionId', UuidPipe) sessionId: string): Promise<void> {
    return this.people.endSession(session, sessionId);
  }

  @Put('passphrase')
  @ApiCookieAuth()
  @ApiOperation({ summary: 'Change your passphrase; every other session of yours ends' })
  @ApiOkResponse({ type: SessionResponse })
  async changePassphrase(
    @WithSession() session: Secret,
    @Body() change: PassphraseChange,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<SessionResponse> {
    return withCookie(request, response, await this.people.changePassphrase(session, change, placeOf(request)));
  }

  @Post('person/erasure')
  @ApiCookieAuth()
  @HttpCode(204)
  @ApiOperation({ summary: 'Erase yourself: name, sign-in and sessions go, what you wrote stays under a pseudonym' })
  @ApiNoContentResponse({ description: 'nobody is known by that any more' })
  async erase(
    @WithSession() session: Secret,
    @Body() input: PersonErasure,
    @Req() request: Request,
    @Res({ passthrough: true }) response: Response,
  ): Promise<void> {
    await this.people.erase(session, input, placeOf(request));
    clearSessionCookie(request, response);
  }

  @Delete('memberships/:clanId')
  @ApiCookieAuth()
  @HttpCode(204)
  @ApiOperation({ summary: 'Leave a clan: keys that you made end, and what only you could read goes' })
  @ApiNoContentResponse({ description: 'you are no member any more' })
  leave(@WithSession() session: Secret, @Param('clanId', UuidPipe) clanId: string): Promise<void> {
    return this.people.leave(session, clanId);
  }
}
