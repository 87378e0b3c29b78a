import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protect, protectOwn } from './row-security.js';

/** What the service remembers of requests: imports already taken in, keys of repeated requests, and who did what. */
export class CreateRecords1767225600006 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table import_receipt (
        clan_id uuid not null references clan on delete cascade,
        -- Digest of canonical rows, mapping and target.
        fingerprint bytea not null,
        target text not null,
        result jsonb not null,
        created_at timestamptz not null default now(),
        constraint import_receipt_pkey primary key (clan_id, fingerprint),
        constraint import_receipt_fingerprint_check check (length(fingerprint) = 32)
      );

      create table idempotency_key (
        clan_id uuid not null references clan on delete cascade,
        key text not null,
        request_hash bytea not null,
        -- Null while the first request still runs.
        status smallint,
        response jsonb,
        created_at timestamptz not null default now(),
        constraint idempotency_key_pkey primary key (clan_id, key),
        constraint idempotency_key_key_check check (length(key) between 1 and 255),
        constraint idempotency_key_status_check check (status between 100 and 599)
      );
      create index idempotency_key_created_at_idx on idempotency_key (clan_id, created_at);

      -- Also the tombstone of what was deleted: rows go, this stays.
      create table audit_entry (
        clan_id uuid not null references clan on delete cascade,
        id uuid not null,
        at timestamptz not null default now(),
        actor_key_id uuid not null,
        action text not null,
        subject_kind text not null,
        subject_id uuid,
        details jsonb not null default '{}',
        constraint audit_entry_pkey primary key (clan_id, id),
        constraint audit_entry_actor_key_id_fkey foreign key (clan_id, actor_key_id) references api_key (clan_id, id)
      );
      create index audit_entry_subject_id_idx on audit_entry (clan_id, subject_id, at);
      create index audit_entry_actor_key_id_idx on audit_entry (clan_id, actor_key_id);
    `);
    await db.query(
      [
        protectOwn('import_receipt', ['select', 'insert', 'delete']),
        protectOwn('idempotency_key'),
        // Append-only, and nobody signs with another's name.
        protect('audit_entry', ['select', 'insert'], {
          read: 'clan_id = (select app.clan())',
          own: 'clan_id = (select app.clan()) and actor_key_id = (select app.key_id())',
        }),
      ].join('\n'),
    );
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`drop table audit_entry, idempotency_key, import_receipt`);
  }
}
