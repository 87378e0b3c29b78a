import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { randomBytes } from 'node:crypto';
import { ApiError } from '../../common/problems.js';
import { RIGHTS_OF_ROLE } from '../../common/rights.js';
import { hashKey } from '../../database/hash-key.js';
import { newSecret, type Secret } from '../../database/new-secret.js';
import { csrfToken } from '../access/session-cookie.js';
import type {
  ClanChoice,
  InvitationPreview,
  InvitationShown,
  JoinAsInput,
  JoinInput,
  OwnSessions,
  PassphraseChange,
  PersonErasure,
  SessionResponse,
  SignInInput,
  SignUpInput,
} from './people.dto.js';
import { Passphrases, type Derivation, type Proof } from './passphrase.js';
import type { SignInPlace } from './sign-in-place.js';
import { SignInLimit } from './sign-in-limit.js';
import { PeopleRepository } from './people.repository.js';

/** For whoever takes them in otherwise than by JSON. */
export {
  ClanChoice,
  JoinAsInput,
  JoinInput,
  PassphraseChange,
  PersonErasure,
  SignInInput,
  SignUpInput,
  type SessionResponse,
} from './people.dto.js';

export { placeOf } from './sign-in-place.js';

/** Enough that no two members of a clan have the same. */
const PSEUDONYM_BYTES = 6;

/** A session that began or goes on under a new token, which belongs into the cookie. */
export interface OpenedSession {
  readonly token: Secret;
  readonly session: SessionResponse;
}

/** People: how they come in, and what they do with their sessions. */
@Injectable()
export class PeopleService {
  constructor(
    private readonly repository: PeopleRepository,
    private readonly passphrases: Passphrases,
    private readonly limit: SignInLimit,
  ) {}

  isFresh(): Promise<boolean> {
    return this.repository.isFresh();
  }

  /** @throws ApiError `access.sign_up_closed` when the service has a clan */
  async signUp(input: SignUpInput, browser: string | null): Promise<OpenedSession> {
    const signInName = normaliseName(input.signInName);
    const proof = await this.passphrases.derive(input.passphrase);
    const clan = { id: uuidv7(), name: input.clanName };
    const ids = { id: uuidv7(), memberId: uuidv7() };
    await this.repository.signUp({ ...ids, ...proof, signInName, memberName: input.name }, clan);
    return this.open(signInName, proof.proof, { browser, clanId: clan.id, renewed: null });
  }

  /** @throws ApiError `invitation.refused` */
  preview({ invitation }: InvitationShown): Promise<InvitationPreview> {
    return this.repository.invitation(hashKey(invitation));
  }

  /**
   * @throws ApiError `invitation.refused`
   * @throws ApiError `resource.taken` when somebody has this sign-in name; the invitation stays open then
   */
  async join(input: JoinInput, browser: string | null): Promise<OpenedSession> {
    const signInName = normaliseName(input.signInName);
    // Before the costly part, and told again by what follows.
    await this.preview(input);
    const proof = await this.passphrases.derive(input.passphrase);
    const person = { id: uuidv7(), memberId: uuidv7(), ...proof, signInName, memberName: input.name };
    const clanId = await this.repository.join(hashKey(input.invitation), person, uuidv7());
    return this.open(signInName, proof.proof, { browser, clanId, renewed: null });
  }

  /**
   * @throws ApiError `invitation.refused`
   * @throws ApiError `member.already`; the invitation stays open then
   */
  async joinAs(token: Secret, { invitation, name }: JoinAsInput): Promise<OpenedSession> {
    const clanId = await this.repository.joinAs(hashKey(invitation), token.digest, { id: uuidv7(), name }, uuidv7());
    return this.moveTo(token, { clanId });
  }

  /**
   * Always under a new token, whatever cookie came along: one that somebody else had planted opens nothing.
   *
   * @param before - the session that this one takes the place of
   * @throws ApiError `access.sign_in_refused` in the same words and about the same time for a wrong name or passphrase
   * @throws ApiError `request.too_many` after too many of those, for a name that nobody has as for any other
   */
  async signIn(input: SignInInput, { browser, address }: SignInPlace, before: Secret | null): Promise<OpenedSession> {
    const signInName = normaliseName(input.signInName);
    const opened = await this.limit.guard(signInName, address, async () => {
      const derivation = await this.repository.derivation(signInName);
      const proof = await this.prove(input.passphrase, derivation);
      // Made at another cost than is asked for today: kept at today's, if it turns out to be the right one.
      const outdated = derivation !== null && this.passphrases.isOutdated(derivation);
      const renewed = outdated ? await this.passphrases.derive(input.passphrase) : null;
      return this.open(signInName, proof, { browser, clanId: input.clanId ?? null, renewed });
    });
    if (before !== null) await this.repository.endSession(before.digest, null).catch(() => undefined);
    return opened;
  }

  /**
   * @param identityProof - of who it is at the provider
   * @throws ApiError `access.sign_in_refused` when nobody here is that
   */
  async signInElsewhere(
    identityProof: Buffer,
    browser: string | null,
    clanId: string | null = null,
  ): Promise<OpenedSession> {
    const token = newSecret('session');
    const session = { id: uuidv7(), tokenDigest: token.digest, userAgent: browser, clanId };
    await this.repository.signInElsewhere(identityProof, session);
    return { token, session: await this.read(token) };
  }

  /** Accepts an invitation as somebody new who has no passphrase here. */
  async joinElsewhere(
    { invitation, name }: JoinAsInput,
    identityProof: Buffer,
    browser: string | null,
  ): Promise<OpenedSession> {
    const person = { id: uuidv7(), memberId: uuidv7(), memberName: name };
    const clanId = await this.repository.joinElsewhere(hashKey(invitation), person, identityProof, uuidv7());
    return this.signInElsewhere(identityProof, browser, clanId);
  }

  /** From now on the person signs in through the provider too. */
  async linkIdentity(token: Secret, identityProof: Buffer): Promise<void> {
    await this.repository.linkIdentity(token.digest, identityProof);
  }

  async read(token: Secret): Promise<SessionResponse> {
    const { id, signInName, clanId, memberId, expiresAt, clans } = await this.repository.session(token.digest);
    const role = clans.find((clan) => clan.clanId === clanId)?.role;
    const rights = role === undefined ? [] : RIGHTS_OF_ROLE[role];
    return { id, signInName, clanId, memberId, rights, expiresAt, csrfToken: csrfToken(token), clans };
  }

  async list(token: Secret): Promise<OwnSessions> {
    return { items: await this.repository.sessions(token.digest) };
  }

  async signOut(token: Secret): Promise<void> {
    await this.repository.endSession(token.digest, null);
  }

  /** @throws ApiError `resource.not_found` */
  async endSession(token: Secret, sessionId: string): Promise<void> {
    if (await this.repository.endSession(token.digest, sessionId)) return;
    throw new ApiError('resource.not_found', 'no session of yours has this id');
  }

  async moveTo(token: Secret, { clanId }: ClanChoice): Promise<OpenedSession> {
    const renewed = newSecret('session');
    await this.repository.moveSession(token.digest, renewed.digest, clanId);
    return { token: renewed, session: await this.read(renewed) };
  }

  /** Ends every other session of the person. */
  async changePassphrase(
    token: Secret,
    { passphrase, newPassphrase }: PassphraseChange,
    { address }: SignInPlace,
  ): Promise<OpenedSession> {
    const signInName = await this.signInNameOf(token);
    const renewed = newSecret('session');
    await this.limit.guard(signInName, address, async () => {
      const old = await this.prove(passphrase, await this.repository.derivation(signInName));
      const changed = await this.passphrases.derive(newPassphrase);
      await this.repository.changePassphrase(token.digest, old, changed, renewed.digest);
    });
    return { token: renewed, session: await this.read(renewed) };
  }

  async leave(token: Secret, clanId: string): Promise<void> {
    await this.repository.leaveClan(token.digest, clanId, uuidv7());
  }

  /**
   * For good: name, sign-in, sessions and memberships.
   *
   * @throws ApiError `clan.owner_needed` when a clan would be left without an owner; nothing is erased then
   */
  async erase(token: Secret, { passphrase = '' }: PersonErasure, { address }: SignInPlace): Promise<void> {
    const signInName = await this.signInNameOf(token);
    const pseudonym = `Former member ${randomBytes(PSEUDONYM_BYTES).toString('hex')}`;
    await this.limit.guard(signInName, address, async () => {
      const proof = await this.prove(passphrase, await this.repository.derivation(signInName));
      await this.repository.erase(token.digest, proof, pseudonym);
    });
  }

  /** Empty for who has none here. */
  private async signInNameOf(token: Secret): Promise<string> {
    return (await this.repository.session(token.digest)).signInName ?? '';
  }

  private async open(
    signInName: string,
    proof: Buffer,
    { browser, clanId, renewed }: { browser: string | null; clanId: string | null; renewed: Proof | null },
  ): Promise<OpenedSession> {
    const token = newSecret('session');
    const session = { id: uuidv7(), tokenDigest: token.digest, userAgent: browser, clanId };
    await this.repository.signIn(signInName, proof, session, renewed);
    return { token, session: await this.read(token) };
  }

  private async prove(passphrase: string, derivation: Derivation | null): Promise<Buffer> {
    // A name that nobody has costs as much time as one that somebody has.
    if (derivation === null) return (await this.passphrases.derive(passphrase)).proof;
    return this.passphrases.prove(passphrase, derivation);
  }
}

/** Names that look the same are the same. */
export function normaliseName(name: string): string {
  return name.normalize('NFKC').trim().toLowerCase();
}
