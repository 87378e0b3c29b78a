import { Controller, Get, Post, Req, Res } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { CookieOptions, Request, Response } from 'express';
import { ApiError } from '../../common/problems.js';
import { validated } from '../../common/validated.js';
import { leavingPage, refusalPage } from '../../rendering/account/account-page.js';
import { originOf, requireOwnPage, requireSameSite, sessionToken, setSessionCookie } from '../access/session-cookie.js';
import { JoinAsInput, PeopleService, type OpenedSession } from '../people/people.service.js';
import { filled, formOf } from './forms.js';
import { formFrame, sendForm } from './form-page.js';
import { CALLBACK, OpenId, type Errand } from './open-id.js';
import { inOneLine, problemOf } from './page-problem.js';

const COOKIE = 'roundbook-errand';
const ERRAND_MS = 10 * 60_000;

/** Signing in through an OpenID provider, accepting an invitation by it, and being known there from now on. */
@ApiExcludeController()
@Controller('account')
export class ElsewhereController {
  constructor(
    private readonly openId: OpenId,
    private readonly people: PeopleService,
  ) {}

  @Get('elsewhere')
  async signIn(@Req() request: Request, @Res() response: Response): Promise<void> {
    await refusing(request, response, async () => {
      const { address, errand } = await this.openId.begin(originOf(request), {});
      keep(request, response, errand);
      response.redirect(303, address);
    });
  }

  @Post('join-elsewhere')
  async join(@Req() request: Request, @Res() response: Response): Promise<void> {
    await refusing(request, response, async () => {
      requireSameSite(request);
      const join = validated(JoinAsInput, filled(formOf(request), 'invitation', 'name'));
      await this.people.preview(join);
      await this.leave(request, response, { join: { invitation: join.invitation, name: join.name } });
    });
  }

  @Post('link-elsewhere')
  async link(@Req() request: Request, @Res() response: Response): Promise<void> {
    await refusing(request, response, async () => {
      const session = sessionToken(request);
      if (session === null) throw new ApiError('access.key_missing', 'sign in first');
      requireOwnPage(request, session, formOf(request)['csrfToken'] ?? '');
      await this.leave(request, response, { link: true });
    });
  }

  @Get('elsewhere/callback')
  async back(@Req() request: Request, @Res() response: Response): Promise<void> {
    response.clearCookie(COOKIE, cookieOptions(request));
    await refusing(request, response, async () => {
      const errand = errandOf(request);
      if (errand === null) throw new ApiError('access.sign_in_refused', 'that took too long; begin again');
      const address = new URL(request.originalUrl, originOf(request));
      const opened = await this.arrive(errand, await this.openId.finish(address, errand), request);
      if (opened !== null) setSessionCookie(request, response, opened.token);
      response.redirect(303, '/account');
    });
  }

  private async arrive({ join, link }: Errand, proof: Buffer, request: Request): Promise<OpenedSession | null> {
    const browser = request.headers['user-agent'] ?? null;
    if (join !== undefined) return this.people.joinElsewhere(validated(JoinAsInput, join), proof, browser);
    if (link === undefined) return this.people.signInElsewhere(proof, browser);
    const session = sessionToken(request);
    if (session === null) throw new ApiError('access.key_missing', 'sign in first');
    await this.people.linkIdentity(session, proof);
    return null;
  }

  /** By a link rather than at once: the page's policy lets no form lead to another site, redirected or not. */
  private async leave(request: Request, response: Response, purpose: Pick<Errand, 'join' | 'link'>): Promise<void> {
    const { address, errand } = await this.openId.begin(originOf(request), purpose);
    keep(request, response, errand);
    const frame = formFrame();
    sendForm(response, leavingPage(address, frame), frame);
  }
}

/** What goes wrong is told a browser on a page, and a program as a problem. */
async function refusing(request: Request, response: Response, work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    if (request.accepts(['html', 'json']) !== 'html') throw error;
    const problem = problemOf(error);
    const frame = formFrame();
    const page = refusalPage('Signing in did not work', inOneLine(problem), frame);
    sendForm(response.status(problem.status).vary('Accept'), page, frame);
  }
}

function keep(request: Request, response: Response, errand: Errand): void {
  const text = Buffer.from(JSON.stringify(errand)).toString('base64url');
  response
    .cookie(COOKIE, text, { ...cookieOptions(request), maxAge: ERRAND_MS })
    .setHeader('Cache-Control', 'no-store');
}

/** Lax, since the way back comes from the provider's site. */
function cookieOptions(request: Request): CookieOptions {
  return { httpOnly: true, sameSite: 'lax', secure: originOf(request).startsWith('https:'), path: CALLBACK };
}

/** What the browser was sent away with, which only this service has written. */
function errandOf(request: Request): Errand | null {
  const text = new RegExp(`(?:^|; *)${COOKIE}=([A-Za-z0-9_-]+)`).exec(request.headers.cookie ?? '')?.[1];
  if (text === undefined) return null;
  try {
    return JSON.parse(Buffer.from(text, 'base64url').toString()) as Errand;
  } catch {
    return null;
  }
}
