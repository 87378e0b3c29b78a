import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protect, protectOwn } from './row-security.js';

/** What the service remembers of requests: imports already taken in, keys of repeated requests, and who did what. */
export class CreateRecords1767225600006 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
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

      create table idempotency_key (
        clan_id uuid not null references clan,
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
        clan_id uuid not null references clan,
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

      -- For the owner's command line only. No table cascades from the clan, so that nothing is lost by one careless
      -- statement; here everything goes on purpose, children first.
      create function app.delete_clan(clan_id uuid) returns void
      language plpgsql set search_path = pg_catalog, pg_temp as $body$
      declare
        relation text;
      begin
        foreach relation in array array[
          'audit_entry', 'idempotency_key', 'import_receipt', 'round_report', 'own_call', 'menu_call',
          'game', 'contest', 'match', 'entrant', 'event', 'player_alias', 'player', 'term_synonym', 'term', 'api_key', 'scope']
        loop
          execute format('delete from public.%I where clan_id = $1', relation) using delete_clan.clan_id;
        end loop;
        delete from public.clan c where c.id = delete_clan.clan_id;
      end $body$;
      revoke execute on all functions in schema app from public;
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
    await db.query(`
      drop function app.delete_clan;
      drop table audit_entry, idempotency_key, import_receipt;
    `);
  }
}
