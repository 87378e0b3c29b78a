import { Controller, Get, Param, Post, Req, Res } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { Request, Response } from 'express';
import { asksForPage } from '../../common/asks-for-page.js';
import { ApiError } from '../../common/problems.js';
import { readSecret } from '../../database/new-secret.js';
import { invitationPage, refusalPage } from '../../rendering/account/account-page.js';
import { csrfToken, sessionToken } from '../access/session-cookie.js';
import { PeopleService } from '../people/people.service.js';
import { AccountService, type Shown } from './account.service.js';
import { ACTIONS, type Action } from './actions.js';
import { formOf, nextOf } from './forms.js';
import { problemOf, type TellableProblem } from './page-problem.js';
import { formFrame, sendForm } from './form-page.js';

/** The pages of a person: signing in, my account, and where an invitation leads. They work without scripts. */
@ApiExcludeController()
@Controller()
export class AccountController {
  constructor(
    private readonly account: AccountService,
    private readonly people: PeopleService,
  ) {}

  /** Where people begin; for a program there is nothing here. */
  @Get()
  begin(@Req() request: Request, @Res() response: Response): void {
    if (!asksForPage(request)) throw new ApiError('request.not_found', 'the API is described at /openapi.json');
    response.vary('Accept').redirect(303, '/account');
  }

  @Get('account')
  async show(@Req() request: Request, @Res() response: Response): Promise<void> {
    await this.send(request, response, {});
  }

  /** Does what the form asks, then shows the page anew: at once where something is to be seen once, else by GET. */
  @Post('account/:action')
  async act(@Param('action') action: string, @Req() request: Request, @Res() response: Response): Promise<void> {
    const known = ACTIONS.find((each) => each === action);
    if (known === undefined) throw new ApiError('request.not_found', 'no form leads here');
    try {
      const shown = await this.account.act(known, request, response);
      if (shown === null) response.redirect(303, nextOf(request) ?? '/account');
      else await this.send(request, response, shown);
    } catch (error) {
      await this.refuse(known, error, request, response);
    }
  }

  @Get('invitation/:invitation')
  async invitation(
    @Param('invitation') invitation: string,
    @Req() request: Request,
    @Res() response: Response,
  ): Promise<void> {
    try {
      await this.sendInvitation(invitation, request, response, null);
    } catch (error) {
      const { detail } = problemOf(error);
      const frame = formFrame();
      sendForm(response.status(404), refusalPage('The invitation does not work', detail, frame), frame);
    }
  }

  private async send(request: Request, response: Response, shown: Shown): Promise<void> {
    const frame = formFrame();
    sendForm(response, await this.account.page(request, shown, frame), frame);
  }

  private async refuse(action: Action, error: unknown, request: Request, response: Response): Promise<void> {
    const problem = problemOf(error);
    const { status, retryAfterSeconds } = problem;
    response.status(status);
    if (retryAfterSeconds !== undefined) response.setHeader('Retry-After', retryAfterSeconds);
    const { invitation } = formOf(request);
    if (action.startsWith('join') && invitation !== undefined && status !== 404) {
      await this.sendInvitation(invitation, request, response, problem);
    } else await this.send(request, response, { problem });
  }

  private async sendInvitation(
    invitation: string,
    request: Request,
    response: Response,
    problem: TellableProblem | null,
  ): Promise<void> {
    if (readSecret('invitation', invitation) === null) {
      throw new ApiError('invitation.refused', 'the link is not complete');
    }
    const { clanName, role } = await this.people.preview({ invitation });
    const session = sessionToken(request);
    const signedIn = session !== null && (await this.people.read(session).catch(() => null)) !== null;
    const token = signedIn ? csrfToken(session) : null;
    const frame = formFrame();
    const entered = { values: formOf(request), mistakes: problem?.mistakes ?? {} };
    const view = { invitation, clanName, role, csrfToken: token, elsewhere: this.account.elsewhere, entered };
    sendForm(response, invitationPage({ ...view, problem: problem?.detail ?? null }, frame), frame);
  }
}
