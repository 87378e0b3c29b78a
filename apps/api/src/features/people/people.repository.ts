import { Inject, Injectable } from '@nestjs/common';
import type { Pool, QueryResultRow } from 'pg';
import { instant } from '../../common/instant-column.js';
import { SERVICE_POOL } from '../../database/clan-transaction.js';
import type { InvitationPreview, Membership, OwnSession } from './people.dto.js';
import type { Derivation, Proof } from './passphrase.js';

/** A session that is to be: its ids, and what the browser called itself. */
export interface NewSession {
  readonly id: string;
  readonly tokenDigest: Buffer;
  readonly userAgent: string | null;
  readonly clanId: string | null;
}

export interface NewPersonRow extends Proof {
  readonly id: string;
  readonly signInName: string;
  readonly memberId: string;
  readonly memberName: string;
}

export interface SessionRow {
  readonly id: string;
  readonly signInName: string | null;
  readonly clanId: string | null;
  readonly memberId: string | null;
  readonly expiresAt: string;
  readonly clans: Membership[];
}

/**
 * People and their sessions, who stand beside the clans: no clan is entered here. The service has no right to their tables;
 * each function of the schema asks for its own proof.
 */
@Injectable()
export class PeopleRepository {
  constructor(@Inject(SERVICE_POOL) private readonly pool: Pool) {}

  async isFresh(): Promise<boolean> {
    const [row] = await this.query<{ fresh: boolean }>('select app.service_is_fresh() as fresh');
    return row?.fresh ?? false;
  }

  async signUp(person: NewPersonRow, clan: { readonly id: string; readonly name: string }): Promise<void> {
    await this.query('select app.sign_up($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)', [
      ...passphraseOf(person),
      ...[clan.id, clan.name, person.memberId, person.memberName],
    ]);
  }

  async invitation(tokenDigest: Buffer): Promise<InvitationPreview> {
    const [row] = await this.query<InvitationPreview & QueryResultRow>(
      `select clan_name as "clanName", role, ${instant('expires_at')} as "expiresAt" from app.invitation_behind($1)`,
      [tokenDigest],
    );
    if (row === undefined) throw new Error('an invitation was found and then not told');
    return row;
  }

  /** @returns the clan */
  async join(invitationDigest: Buffer, person: NewPersonRow, auditId: string): Promise<string> {
    return this.joined('select app.join_clan($1, $2, $3, $4, $5, $6, $7, $8, null, $9, $10, $11) as clan', [
      ...[invitationDigest, ...passphraseOf(person), person.memberId, person.memberName, auditId],
    ]);
  }

  /** @returns the clan */
  async joinElsewhere(
    invitationDigest: Buffer,
    person: Pick<NewPersonRow, 'id' | 'memberId' | 'memberName'>,
    identityProof: Buffer,
    auditId: string,
  ): Promise<string> {
    return this.joined('select app.join_clan($1, $2, null, null, null, null, null, null, $3, $4, $5, $6) as clan', [
      invitationDigest,
      person.id,
      identityProof,
      person.memberId,
      person.memberName,
      auditId,
    ]);
  }

  async signInElsewhere(identityProof: Buffer, { id, tokenDigest, userAgent, clanId }: NewSession): Promise<void> {
    await this.query('select app.sign_in_elsewhere($1, $2, $3, $4, $5)', [
      ...[identityProof, id, tokenDigest, userAgent, clanId],
    ]);
  }

  async linkIdentity(tokenDigest: Buffer, identityProof: Buffer): Promise<void> {
    await this.query('select app.link_identity($1, $2)', [tokenDigest, identityProof]);
  }

  /** @returns the clan */
  async joinAs(
    invitationDigest: Buffer,
    sessionDigest: Buffer,
    member: { readonly id: string; readonly name: string },
    auditId: string,
  ): Promise<string> {
    return this.joined('select app.join_clan_as($1, $2, $3, $4, $5) as clan', [
      ...[invitationDigest, sessionDigest, member.id, member.name, auditId],
    ]);
  }

  private async joined(sql: string, parameters: readonly unknown[]): Promise<string> {
    const [row] = await this.query<{ clan: string }>(sql, parameters);
    if (row === undefined) throw new Error('an invitation was accepted to no clan');
    return row.clan;
  }

  /** How the person's proof is made; null when nobody has this name and a passphrase. */
  async derivation(signInName: string): Promise<Derivation | null> {
    const [row] = await this.query<Derivation & QueryResultRow>(
      `select salt, memory_kib as "memoryKib", passes, lanes from app.passphrase_of($1) where salt is not null`,
      [signInName],
    );
    return row ?? null;
  }

  async signIn(signInName: string, proof: Buffer, session: NewSession, renewed: Proof | null): Promise<void> {
    const { id, tokenDigest, userAgent, clanId } = session;
    await this.query('select app.sign_in($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)', [
      ...[signInName, proof, id, tokenDigest, userAgent, clanId],
      ...[renewed?.salt, renewed?.memoryKib, renewed?.passes, renewed?.lanes, renewed?.proof],
    ]);
  }

  async session(tokenDigest: Buffer): Promise<SessionRow> {
    const [row] = await this.query<SessionRow & QueryResultRow>(
      `select session_id as id, sign_in_name as "signInName", clan_id as "clanId", member_id as "memberId",
              ${instant('expires_at')} as "expiresAt", clans
         from app.session_of($1)`,
      [tokenDigest],
    );
    if (row === undefined) throw new Error('a session was found and then not told');
    return row;
  }

  sessions(tokenDigest: Buffer): Promise<OwnSession[]> {
    return this.query<OwnSession & QueryResultRow>(
      `select session_id as id, user_agent as "userAgent", ${instant('created_at')} as "createdAt",
              ${instant('last_used_at')} as "lastUsedAt", ${instant('expires_at')} as "expiresAt", own as current
         from app.person_sessions($1)`,
      [tokenDigest],
    );
  }

  /** @returns whether there was such a session of the same person */
  async endSession(tokenDigest: Buffer, sessionId: string | null): Promise<boolean> {
    const [row] = await this.query<{ ended: boolean }>('select app.end_session($1, $2) as ended', [
      tokenDigest,
      sessionId,
    ]);
    return row?.ended ?? false;
  }

  async moveSession(tokenDigest: Buffer, newDigest: Buffer, clanId: string): Promise<void> {
    await this.query('select app.move_session($1, $2, $3)', [tokenDigest, newDigest, clanId]);
  }

  async changePassphrase(tokenDigest: Buffer, oldProof: Buffer, changed: Proof, newDigest: Buffer): Promise<void> {
    const { salt, memoryKib, passes, lanes, proof } = changed;
    await this.query('select app.change_passphrase($1, $2, $3, $4, $5, $6, $7, $8)', [
      ...[tokenDigest, oldProof, salt, memoryKib, passes, lanes, proof, newDigest],
    ]);
  }

  async leaveClan(tokenDigest: Buffer, clanId: string, auditId: string): Promise<void> {
    await this.query('select app.leave_clan($1, $2, $3)', [tokenDigest, clanId, auditId]);
  }

  async erase(tokenDigest: Buffer, proof: Buffer, pseudonym: string): Promise<void> {
    await this.query('select app.erase_person($1, $2, $3)', [tokenDigest, proof, pseudonym]);
  }

  private async query<Row extends QueryResultRow>(sql: string, parameters: readonly unknown[] = []): Promise<Row[]> {
    return (await this.pool.query<Row>(sql, [...parameters])).rows;
  }
}

function passphraseOf({ id, signInName, salt, memoryKib, passes, lanes, proof }: NewPersonRow): readonly unknown[] {
  return [id, signInName, salt, memoryKib, passes, lanes, proof];
}
