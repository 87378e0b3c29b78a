import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { AuditRepository } from '../../common/audit.repository.js';
import type { Creation } from '../../common/creation.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { found, Resources } from '../../common/resources.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import { newSecret } from '../../database/new-secret.js';
import type { Credential } from '../access/credential.js';
import type { InvitationInput, InvitationPage, InvitationResponse, NewInvitation } from './invitations.dto.js';
import { InvitationsRepository } from './invitations.repository.js';

/** For whoever takes one in otherwise than by JSON. */
export { InvitationInput } from './invitations.dto.js';

const USUAL_DAYS = 7;

/** Links that let a person into the clan, each once. */
@Injectable()
export class InvitationsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly audit: AuditRepository,
    private readonly repository: InvitationsRepository,
  ) {}

  list(credential: Credential, { after, limit }: IdPageQuery): Promise<InvitationPage> {
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, after ?? null, limit + 1), limit, (invitation) => invitation.id),
    );
  }

  read(credential: Credential, id: string): Promise<InvitationResponse> {
    return this.transactions.run(credential, 'read', async (db) =>
      found(await this.repository.find(db, id), 'invitation'),
    );
  }

  /** @param origin - where people reach the service */
  async create(
    credential: Credential,
    creation: Creation,
    { role, note, days }: InvitationInput,
    origin: string,
  ): Promise<NewInvitation> {
    // The answer that is kept for a request that comes again has no secret in it.
    let link: string | null = null;
    const made = await this.resources.create(credential, creation, async (db) => {
      const [id, token] = [uuidv7(), newSecret('invitation')];
      await this.repository.insert(db, { id, role, note: note ?? null, days: days ?? USUAL_DAYS, token });
      await this.audit.did(db, 'invitation.made', 'invitation', id, { role });
      link = `${origin}/invitation/${token.text}`;
      return found(await this.repository.find(db, id), 'invitation');
    });
    return { ...made, link };
  }

  /** One that was accepted goes from the list; who came by it stays. */
  withdraw(credential: Credential, id: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, {
      kind: 'invitation',
      id,
      lock: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    });
  }
}
