import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectOwn } from './row-security.js';

const TABLES_OF_A_CLAN = [
  ...['coaching_point', 'audit_entry', 'idempotency_key', 'import_receipt', 'round_report', 'own_call', 'menu_call'],
  ...['game', 'contest', 'match', 'entrant', 'event', 'player_alias', 'player', 'term_synonym', 'term'],
  ...['api_key', 'scope'],
];

/** How people's own sheets are to be understood, kept for the next sheet with the same headers. */
export class CreateSheetMappings1767225600101 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table sheet_mapping (
        clan_id uuid not null references clan,
        id uuid not null,
        name text not null,
        -- Digest of the headers, whatever their order.
        fingerprint bytea not null,
        -- Headers, columns, constants, answers, us, order; checked by the service against the vocabulary.
        body jsonb not null,
        changed_at timestamptz not null default now(),
        constraint sheet_mapping_pkey primary key (clan_id, id),
        constraint sheet_mapping_clan_id_name_key unique (clan_id, name),
        constraint sheet_mapping_name_check check (length(name) between 1 and 80),
        constraint sheet_mapping_fingerprint_check check (length(fingerprint) = 32),
        constraint sheet_mapping_body_check check (jsonb_typeof(body) = 'object')
      );
      create index sheet_mapping_fingerprint_idx on sheet_mapping (clan_id, fingerprint, changed_at);
    `);
    await db.query(protectOwn('sheet_mapping'));
    await db.query(deleteClan(['sheet_mapping', ...TABLES_OF_A_CLAN]));
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(deleteClan(TABLES_OF_A_CLAN));
    await db.query(`drop table sheet_mapping`);
  }
}

function deleteClan(tables: readonly string[]): string {
  return `
      create or replace function app.delete_clan(clan_id uuid) returns void
      language plpgsql set search_path = pg_catalog, pg_temp as $body$
      declare
        relation text;
      begin
        foreach relation in array array[${tables.map((table) => `'${table}'`).join(', ')}]
        loop
          execute format('delete from public.%I where clan_id = $1', relation) using delete_clan.clan_id;
        end loop;
        delete from public.clan c where c.id = delete_clan.clan_id;
      end $body$;`;
}
