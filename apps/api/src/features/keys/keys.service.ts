import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { AuditRepository } from '../../common/audit.repository.js';
import type { Creation } from '../../common/creation.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { ApiError } from '../../common/problems.js';
import { mayDo } from '../../common/rights.js';
import { found, Resources } from '../../common/resources.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import { newSecret } from '../../database/new-secret.js';
import type { Credential } from '../access/credential.js';
import type { KeyInput, KeyPage, KeyResponse, NewKey } from './keys.dto.js';
import { KeysRepository } from './keys.repository.js';

/** For whoever takes one in otherwise than by JSON. */
export { KeyInput } from './keys.dto.js';

const USUAL_DAYS = 90;

/** Keys for programs: each may do what its scopes say, and never more than who made it. */
@Injectable()
export class KeysService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly audit: AuditRepository,
    private readonly repository: KeysRepository,
  ) {}

  list(credential: Credential, { after, limit }: IdPageQuery): Promise<KeyPage> {
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, after ?? null, limit + 1), limit, (key) => key.id),
    );
  }

  read(credential: Credential, id: string): Promise<KeyResponse> {
    return this.transactions.run(credential, 'read', async (db) => found(await this.repository.find(db, id), 'key'));
  }

  /** @throws ApiError `access.right_missing` when it would do more than its maker may */
  async create(credential: Credential, creation: Creation, input: KeyInput): Promise<NewKey> {
    // The answer that is kept for a request that comes again has no secret in it.
    let key: string | null = null;
    const made = await this.resources.create(credential, creation, async (db) => {
      const beyond = input.scopes.find((scope) => !mayDo(db.rights, scope));
      if (beyond !== undefined) throw new ApiError('access.right_missing', `you cannot give away a right to ${beyond}`);
      const [id, secret] = [uuidv7(), newSecret('key')];
      const { name, scopes, personal = false } = input;
      const days = input.days === undefined ? USUAL_DAYS : input.days;
      await this.repository.insert(db, { id, name, scopes, days, personal, key: secret });
      await this.audit.did(db, 'key.made', 'key', id, { scopes });
      key = secret.text;
      return found(await this.repository.find(db, id), 'key');
    });
    return { ...made, key };
  }

  /** At once, and for good; the key stays in the list, so that what it did keeps its name. */
  revoke(credential: Credential, id: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, {
      kind: 'key',
      id,
      lock: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.revoke(db, id),
    });
  }
}
