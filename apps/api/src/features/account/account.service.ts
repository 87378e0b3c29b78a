import { Injectable } from '@nestjs/common';
import type { Request, Response } from 'express';
import type { Creation } from '../../common/creation.js';
import { ANY_VERSION } from '../../common/change.js';
import { ApiError } from '../../common/problems.js';
import { mayDo, RIGHTS, type Right } from '../../common/rights.js';
import { validated } from '../../common/validated.js';
import type { Secret } from '../../database/new-secret.js';
import { accountPage, signInPage, type AccountView } from '../../rendering/account/account-page.js';
import type { PageFrame } from '../../rendering/page/page.js';
import type { Credential } from '../access/credential.js';
import {
  clearSessionCookie,
  originOf,
  requireOwnPage,
  requireSameSite,
  sessionToken,
  setSessionCookie,
} from '../access/session-cookie.js';
import { InvitationInput, InvitationsService } from '../invitations/invitations.service.js';
import { MembersService } from '../members/members.service.js';
import { KeyInput, KeysService } from '../keys/keys.service.js';
import {
  ClanChoice,
  JoinAsInput,
  JoinInput,
  PassphraseChange,
  PersonErasure,
  placeOf,
  PeopleService,
  SignInInput,
  SignUpInput,
  type OpenedSession,
  type SessionResponse,
} from '../people/people.service.js';
import { ReportShelfService } from '../round-reports/report-shelf.service.js';
import { OPEN_ACTIONS, type Action } from './actions.js';
import { OpenId } from './open-id.js';
import { inOneLine, type TellableProblem } from './page-problem.js';
import { filled, formOf, nextOf, valuesOf } from './forms.js';

/** What a page shows beside what is there anyway. */
export interface Shown {
  readonly secret?: AccountView['secret'];
  readonly problem?: TellableProblem | null;
}

const MOST_SHOWN = { limit: 200 };
const REPORTS_SHOWN = 10;
const ONCE: Creation = { idempotencyKey: null, requestHash: Buffer.alloc(0) };

/** Puts together what the account page shows, and does what its forms ask. */
@Injectable()
export class AccountService {
  constructor(
    private readonly people: PeopleService,
    private readonly members: MembersService,
    private readonly keys: KeysService,
    private readonly invitations: InvitationsService,
    private readonly shelf: ReportShelfService,
    private readonly openId: OpenId,
  ) {}

  /** Whether people may also sign in through a provider. */
  get elsewhere(): boolean {
    return this.openId.offered;
  }

  async page(request: Request, { secret = null, problem = null }: Shown, frame: PageFrame): Promise<string> {
    const token = sessionToken(request);
    const session = token === null ? null : await this.people.read(token).catch(() => null);
    if (token === null || session === null) {
      const entered = { values: formOf(request), mistakes: problem?.mistakes ?? {} };
      const view = { fresh: await this.people.isFresh(), elsewhere: this.elsewhere, entered, next: nextOf(request) };
      return signInPage({ ...view, problem: problem?.detail ?? null }, frame);
    }
    return accountPage(
      { ...(await this.view(token, session)), secret, problem: problem === null ? null : inOneLine(problem) },
      frame,
    );
  }

  /**
   * @returns what is to be shown at once, or null when the page is to be read anew
   * @throws ApiError, or what the schema raises, for the page to tell
   */
  async act(action: Action, request: Request, response: Response): Promise<Shown | null> {
    const form = formOf(request);
    const session = sessionToken(request);
    if (OPEN_ACTIONS.has(action)) {
      requireSameSite(request);
      setSessionCookie(request, response, (await this.comeIn(action, form, request, session)).token);
      return null;
    }
    if (session === null) throw new ApiError('access.key_missing', 'sign in first');
    requireOwnPage(request, session, form['csrfToken'] ?? '');
    const moved = await this.ofPerson(action, form, request, session);
    if (moved !== null) {
      setSessionCookie(request, response, moved.token);
      return null;
    }
    const shown = await this.ofClan(action, form, request, session);
    // Not before it was done: who may not be erased yet is still signed in.
    if (action === 'sign-out' || action === 'erase') clearSessionCookie(request, response);
    return shown;
  }

  private comeIn(
    action: Action,
    form: Readonly<Record<string, string>>,
    request: Request,
    before: Secret | null,
  ): Promise<OpenedSession> {
    const { browser } = placeOf(request);
    const person = filled(form, 'signInName', 'passphrase', 'name');
    switch (action) {
      case 'sign-up':
        return this.people.signUp(validated(SignUpInput, { ...person, ...filled(form, 'clanName') }), browser);
      case 'join':
        return this.people.join(validated(JoinInput, { ...person, ...filled(form, 'invitation') }), browser);
      default:
        return this.people.signIn(
          validated(SignInInput, filled(form, 'signInName', 'passphrase')),
          placeOf(request),
          before,
        );
    }
  }

  /** What gives the session another token. */
  private async ofPerson(
    action: Action,
    form: Readonly<Record<string, string>>,
    request: Request,
    session: Secret,
  ): Promise<OpenedSession | null> {
    switch (action) {
      case 'join-as':
        return this.people.joinAs(session, validated(JoinAsInput, filled(form, 'invitation', 'name')));
      case 'clan':
        return this.people.moveTo(session, validated(ClanChoice, filled(form, 'clanId')));
      case 'passphrase': {
        const change = validated(PassphraseChange, filled(form, 'passphrase', 'newPassphrase'));
        return this.people.changePassphrase(session, change, placeOf(request));
      }
      default:
        return null;
    }
  }

  private async ofClan(
    action: Action,
    form: Readonly<Record<string, string>>,
    request: Request,
    session: Secret,
  ): Promise<Shown | null> {
    switch (action) {
      case 'sign-out':
        await this.people.signOut(session);
        return null;
      case 'erase':
        await this.people.erase(session, validated(PersonErasure, filled(form, 'passphrase')), placeOf(request));
        return null;
      case 'leave':
        await this.people.leave(session, validated(ClanChoice, filled(form, 'clanId')).clanId);
        return null;
      case 'end-session':
        await this.people.endSession(session, idIn(form, 'sessionId'));
        return null;
      case 'revoke-key':
        await this.keys.revoke(needing(session, 'write'), idIn(form, 'keyId'), ANY_VERSION);
        return null;
      case 'withdraw':
        await this.invitations.withdraw(needing(session, 'manage'), idIn(form, 'invitationId'), ANY_VERSION);
        return null;
      case 'change-role': {
        const change = { ifMatch: ANY_VERSION, patch: filled(form, 'role') };
        await this.members.change(needing(session, 'manage'), idIn(form, 'memberId'), change);
        return null;
      }
      case 'remove-member':
        await this.members.remove(needing(session, 'manage'), idIn(form, 'memberId'), ANY_VERSION);
        return null;
      case 'make-key': {
        const input = validated(KeyInput, { ...filled(form, 'name'), scopes: valuesOf(request, 'scopes') });
        const { name, key } = await this.keys.create(needing(session, 'write'), ONCE, input);
        return { secret: { what: `The key ${name}.`, text: key ?? '' } };
      }
      case 'invite': {
        const input = validated(InvitationInput, filled(form, 'role', 'note'));
        const made = await this.invitations.create(needing(session, 'manage'), ONCE, input, originOf(request));
        return { secret: { what: 'The invitation.', text: made.link ?? '' } };
      }
      default:
        return null;
    }
  }

  private async view(token: Secret, session: SessionResponse): Promise<Omit<AccountView, 'secret' | 'problem'>> {
    const { clanId, clans, csrfToken, memberId, rights, signInName } = session;
    const members = clanId === null ? null : await this.members.list(needing(token, 'read'), MOST_SHOWN);
    const reports = clanId === null ? null : await this.shelf.newest(needing(token, 'profiles'), REPORTS_SHOWN);
    const named = clans.map((each) => ({ id: each.clanId, name: each.clanName, role: each.role }));
    const keys = mayDo(rights, 'write') ? await this.keys.list(needing(token, 'write'), MOST_SHOWN) : null;
    const invitations = mayDo(rights, 'manage')
      ? await this.invitations.list(needing(token, 'manage'), MOST_SHOWN)
      : null;
    return {
      elsewhere: this.elsewhere,
      ...{ csrfToken, signInName, sessions: (await this.people.list(token)).items },
      clan: named.find(({ id }) => id === clanId) ?? null,
      otherClans: named.filter(({ id }) => id !== clanId),
      reports,
      members: members?.items.map((member) => ({ ...member, own: member.id === memberId })) ?? [],
      mayManage: mayDo(rights, 'manage'),
      keys: keys?.items.filter(({ revokedAt }) => revokedAt === null) ?? null,
      invitations: invitations?.items.filter(({ acceptedAt }) => acceptedAt === null) ?? null,
      mayGive: RIGHTS.filter((right) => mayDo(rights, right)),
    };
  }
}

function needing({ digest }: Secret, needs: Right): Credential {
  return { keyHash: digest, needs };
}

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

function idIn(form: Readonly<Record<string, string>>, name: string): string {
  const id = form[name] ?? '';
  if (UUID.test(id)) return id;
  throw new ApiError('request.invalid', 'the form is not complete');
}
