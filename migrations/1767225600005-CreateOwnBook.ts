import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectScoped } from './row-security.js';

/** What a clan can call, what it meant to call, and what it wrote about an opponent. */
export class CreateOwnBook1767225600005 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- The installed menu: our own names, each mapped to terms.
      create table menu_call (
        clan_id uuid not null references clan,
        id uuid not null,
        scope_id integer not null,
        side text not null,
        name text not null,
        personnel integer,
        formation integer,
        concept integer,
        front integer,
        coverage integer,
        pressure integer,
        rehearsed boolean not null default false,
        constraint menu_call_pkey primary key (clan_id, id),
        constraint menu_call_clan_id_side_name_key unique (clan_id, side, name),
        constraint menu_call_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint menu_call_side_check check (side in ('offense', 'defense')),
        constraint menu_call_name_check check (length(name) between 1 and 80)
      );
      create index menu_call_scope_id_idx on menu_call (clan_id, scope_id);

      -- What we meant to call, apart from what was seen. It keeps its own scope: publishing a game never publishes it.
      create table own_call (
        clan_id uuid not null,
        id uuid not null,
        scope_id integer not null,
        game_id uuid not null,
        order_in_game integer not null,
        side text not null,
        menu_call_id uuid,
        call_family integer,
        concept integer,
        formation integer,
        front integer,
        coverage integer,
        pressure integer,
        note text,
        constraint own_call_pkey primary key (clan_id, id),
        constraint own_call_clan_id_game_id_order_in_game_side_key unique (clan_id, game_id, order_in_game, side),
        constraint own_call_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint own_call_game_id_fkey
          foreign key (clan_id, game_id) references game (clan_id, id) on delete cascade,
        constraint own_call_menu_call_id_fkey foreign key (clan_id, menu_call_id)
          references menu_call (clan_id, id) on delete set null (menu_call_id),
        constraint own_call_side_check check (side in ('offense', 'defense')),
        constraint own_call_order_in_game_check check (order_in_game >= 1)
      );
      create index own_call_menu_call_id_idx on own_call (clan_id, menu_call_id) where menu_call_id is not null;
      create index own_call_scope_id_idx on own_call (clan_id, scope_id);

      -- Frozen: numbers, ids, seed, settings, and the revisions it was made from. Never changed, only deleted.
      create table round_report (
        clan_id uuid not null references clan,
        id uuid not null,
        scope_id integer not null,
        event_id uuid,
        round integer,
        -- For whom it was made; null for the whole clan.
        player_id uuid,
        opponent_player_id uuid not null,
        created_at timestamptz not null default now(),
        settings jsonb not null,
        seed bigint not null,
        code_version text not null,
        inputs jsonb not null,
        body jsonb not null,
        constraint round_report_pkey primary key (clan_id, id),
        constraint round_report_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint round_report_round_check check (round >= 1)
      );
      create index round_report_opponent_player_id_idx on round_report (clan_id, opponent_player_id, created_at);
      create index round_report_event_id_idx on round_report (clan_id, event_id);
      create index round_report_scope_id_idx on round_report (clan_id, scope_id);
    `);
    await db.query(
      [
        protectScoped('menu_call'),
        protectScoped('own_call'),
        protectScoped('round_report', ['select', 'insert', 'delete']),
      ].join('\n'),
    );
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`drop table round_report, own_call, menu_call`);
  }
}
