import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectScoped } from './row-security.js';

const TABLES_OF_A_CLAN = [
  ...['audit_entry', 'idempotency_key', 'import_receipt', 'round_report', 'own_call', 'menu_call'],
  ...['game', 'contest', 'match', 'entrant', 'event', 'player_alias', 'player', 'term_synonym', 'term'],
  ...['api_key', 'scope'],
];

/** What a clan's people want remembered of a call, an answer, an opponent or a play: short, signed, every version kept. */
export class CreateCoachingPoints1767225600020 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table coaching_point (
        clan_id uuid not null references clan,
        id uuid not null,
        scope_id integer not null,
        about text not null,
        menu_call_id uuid,
        call_family integer,
        concept integer,
        formation integer,
        front integer,
        coverage integer,
        pressure integer,
        player_id uuid,
        -- No foreign key: the play may be another clan's, and may be withdrawn.
        chart_id uuid,
        play_number integer,
        text text not null,
        revision integer not null default 1,
        written_by uuid not null,
        written_at timestamptz not null default now(),
        constraint coaching_point_pkey primary key (clan_id, id),
        constraint coaching_point_clan_id_id_scope_id_key unique (clan_id, id, scope_id),
        constraint coaching_point_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint coaching_point_menu_call_id_fkey
          foreign key (clan_id, menu_call_id) references menu_call (clan_id, id) on delete cascade,
        constraint coaching_point_player_id_fkey
          foreign key (clan_id, player_id) references player (clan_id, id) on delete cascade,
        constraint coaching_point_written_by_fkey foreign key (clan_id, written_by) references api_key (clan_id, id),
        constraint coaching_point_text_check check (length(text) between 1 and 500),
        constraint coaching_point_revision_check check (revision >= 1),
        constraint coaching_point_about_check check (case about
          when 'call' then num_nonnulls(menu_call_id, call_family, concept, formation) > 0
                           and num_nonnulls(front, coverage, pressure, player_id, chart_id) = 0
          when 'answer' then num_nonnulls(front, coverage, pressure) > 0 and num_nonnulls(player_id, chart_id) = 0
          when 'opponent' then player_id is not null and num_nonnulls(menu_call_id, call_family, concept, formation,
                                                                      front, coverage, pressure, chart_id) = 0
          when 'play' then chart_id is not null and num_nonnulls(menu_call_id, call_family, concept, formation,
                                                                 front, coverage, pressure, player_id) = 0
          else false end),
        constraint coaching_point_play_number_check check ((play_number is null) = (chart_id is null))
      );
      create index coaching_point_menu_call_id_idx on coaching_point (clan_id, menu_call_id) where menu_call_id is not null;
      create index coaching_point_player_id_idx on coaching_point (clan_id, player_id) where player_id is not null;
      create index coaching_point_chart_id_idx on coaching_point (clan_id, chart_id) where chart_id is not null;
      create index coaching_point_scope_id_idx on coaching_point (clan_id, scope_id);
      create index coaching_point_written_by_idx on coaching_point (clan_id, written_by);

      -- What it said before, and who said so.
      create table coaching_point_version (
        clan_id uuid not null,
        coaching_point_id uuid not null,
        revision integer not null,
        scope_id integer not null,
        text text not null,
        written_by uuid not null,
        written_at timestamptz not null,
        constraint coaching_point_version_pkey primary key (clan_id, coaching_point_id, revision),
        constraint coaching_point_version_coaching_point_id_fkey
          foreign key (clan_id, coaching_point_id, scope_id) references coaching_point (clan_id, id, scope_id)
          on update cascade on delete cascade,
        constraint coaching_point_version_written_by_fkey
          foreign key (clan_id, written_by) references api_key (clan_id, id)
      );
      create index coaching_point_version_written_by_idx on coaching_point_version (clan_id, written_by);
    `);
    await db.query(
      [protectScoped('coaching_point'), protectScoped('coaching_point_version', ['select', 'insert'])].join('\n'),
    );
    await db.query(deleteClan(['coaching_point', ...TABLES_OF_A_CLAN]));
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(deleteClan(TABLES_OF_A_CLAN));
    await db.query(`drop table coaching_point_version, coaching_point`);
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
