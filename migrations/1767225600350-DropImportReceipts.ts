import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectOwn } from './row-security.js';

/**
 * An import knows a file that was sent before by the charts that it made, and a request by its idempotency key; nothing
 * ever read the receipts.
 */
export class DropImportReceipts1767225600350 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`drop table import_receipt`);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      create table import_receipt (
        clan_id uuid not null references clan,
        -- Digest of canonical rows, mapping and target.
        fingerprint bytea not null,
        target text not null,
        result jsonb not null,
        created_at timestamptz not null default now(),
        constraint import_receipt_pkey primary key (clan_id, fingerprint),
        constraint import_receipt_fingerprint_check check (length(fingerprint) = 32)
      );
    `);
    await db.query(protectOwn('import_receipt', ['select', 'insert', 'delete']));
  }
}
