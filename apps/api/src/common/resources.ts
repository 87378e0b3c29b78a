import { Injectable } from '@nestjs/common';
import { ClanTransactions, type ClanCredential, type ClanDatabase } from '../database/clan-transaction.js';
import { AuditRepository } from './audit.repository.js';
import { requireCurrent, type Change } from './change.js';
import type { Creation } from './creation.js';
import { etagOf } from './etag.js';
import { IdempotencyRepository } from './idempotency.repository.js';
import { mergePatch } from './merge-patch.js';
import { ApiError } from './problems.js';
import { validated } from './validated.js';

/** A row that the clan may change, as its feature keeps it. */
export interface Kept<Row extends object> {
  /** What it is called in problems and in the audit: `player`. */
  readonly kind: string;
  /** Null for the few that are known by a number, which the audit then has in `details`. */
  readonly id: string | null;
  /** What else the audit says of which one it is; never a name. */
  readonly details?: object;
  /** The clan's own row, locked until the transaction ends; null when the clan has none. */
  lock(db: ClanDatabase): Promise<Row | null>;
}

export interface Changeable<Row extends object, Input extends object> extends Kept<Row> {
  /** The rules that what comes out of a change must keep, the same as of a new one. */
  readonly input: new () => Input;
  /** The part of the row that may be changed. */
  inputOf(row: Row): object;
  write(db: ClanDatabase, input: Input, before: Row): Promise<void>;
  /** The row as it is after the change. */
  read(db: ClanDatabase): Promise<Row | null>;
}

export interface Removable<Row extends object> extends Kept<Row> {
  remove(db: ClanDatabase, row: Row): Promise<void>;
}

/**
 * The conventions that every resource follows when it is made, changed and removed, in one place: a creation may be sent
 * twice, a change must say what it was made from, and what was changed or removed leaves its id in the audit.
 */
@Injectable()
export class Resources {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly idempotency: IdempotencyRepository,
    private readonly audit: AuditRepository,
  ) {}

  create<Row>(credential: ClanCredential, creation: Creation, make: (db: ClanDatabase) => Promise<Row>): Promise<Row> {
    return this.transactions.run(credential, 'write', (db) => this.idempotency.once(db, creation, make));
  }

  /**
   * @throws ApiError `resource.not_found` when the clan has no such row, even where it reads another clan's
   * @throws ApiError `request.precondition_failed` when the row is not what the change was made from
   * @throws ApiError `request.invalid` when the changed row would not be valid
   */
  change<Row extends object, Input extends object>(
    credential: ClanCredential,
    { ifMatch, patch }: Change,
    kept: Changeable<Row, Input>,
  ): Promise<Row> {
    return this.transactions.run(credential, 'write', async (db) => {
      const before = await this.own(db, kept);
      requireCurrent(ifMatch, etagOf(before));
      const input = validated(kept.input, mergePatch(kept.inputOf(before), patch));
      await kept.write(db, input, before);
      // Which fields, never what they said: that may be a person's name.
      await this.audit.did(db, `${kept.kind}.changed`, kept.kind, kept.id, {
        ...kept.details,
        fields: Object.keys(patch).sort(),
      });
      return found(await kept.read(db), kept.kind);
    });
  }

  /** @throws ApiError as `change` does */
  remove<Row extends object>(credential: ClanCredential, ifMatch: string, kept: Removable<Row>): Promise<void> {
    return this.transactions.run(credential, 'write', async (db) => {
      const row = await this.own(db, kept);
      requireCurrent(ifMatch, etagOf(row));
      await kept.remove(db, row);
      await this.audit.removed(db, kept.kind, kept.id, kept.details);
    });
  }

  private async own<Row extends object>(db: ClanDatabase, kept: Kept<Row>): Promise<Row> {
    return found(await kept.lock(db), kept.kind, 'of yours ');
  }
}

/** @throws ApiError `resource.not_found`, in the same words whether nobody has it or only another clan */
export function found<Row>(row: Row | null, kind: string, whose = ''): Row {
  if (row === null) throw new ApiError('resource.not_found', `no ${kind} ${whose}has this id`);
  return row;
}
