import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectScoped } from './row-security.js';

/** Who plays, and in which events, brackets and rounds. */
export class CreatePlayersAndEvents1767225600002 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table player (
        clan_id uuid not null references clan,
        id uuid not null,
        scope_id integer not null,
        handle text not null,
        normalised_handle text not null,
        -- "Same player as": a claim of this clan about its own record or one it can read, which may go away again.
        linked_player_id uuid,
        link_certain boolean not null default true,
        -- The public record that this one was adopted from.
        source_id uuid,
        created_at timestamptz not null default now(),
        constraint player_pkey primary key (clan_id, id),
        constraint player_clan_id_normalised_handle_key unique (clan_id, normalised_handle),
        constraint player_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint player_handle_check check (length(handle) between 1 and 80 and normalised_handle <> ''),
        constraint player_linked_player_id_check check (linked_player_id <> id)
      );
      create index player_id_idx on player (id);
      create index player_linked_player_id_idx on player (linked_player_id) where linked_player_id is not null;
      create index player_scope_id_idx on player (clan_id, scope_id);

      -- Links have one level, so that "same player" is one look-up and never a walk. Only the clan's own records are
      -- looked at: what another clan links must not show here.
      create function app.check_player_link() returns trigger
      language plpgsql set search_path = pg_catalog, pg_temp as $body$
      begin
        if new.linked_player_id is null then
          return new;
        end if;
        -- Locked, so that two transactions cannot link two records to each other.
        perform from public.player p
          where p.clan_id = new.clan_id and p.id = new.linked_player_id for no key update;
        if exists (select from public.player p where p.clan_id = new.clan_id
                      and (p.id = new.linked_player_id and p.linked_player_id is not null
                           or p.linked_player_id = new.id)) then
          raise exception 'a linked player cannot be linked to: links have one level'
            using errcode = 'check_violation', constraint = 'player_link_level_check';
        end if;
        return new;
      end $body$;
      create trigger player_link_level_check before insert or update of linked_player_id on player
        for each row execute function app.check_player_link();

      create table player_alias (
        clan_id uuid not null,
        id uuid not null,
        -- Its own and not the player's: what a clan calls somebody among themselves stays private when the player
        -- becomes public.
        scope_id integer not null,
        player_id uuid not null,
        alias text not null,
        normalised_alias text not null,
        constraint player_alias_pkey primary key (clan_id, id),
        constraint player_alias_clan_id_normalised_alias_key unique (clan_id, normalised_alias),
        constraint player_alias_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint player_alias_player_id_fkey
          foreign key (clan_id, player_id) references player (clan_id, id) on delete cascade,
        constraint player_alias_alias_check check (length(alias) between 1 and 80 and normalised_alias <> '')
      );
      create index player_alias_player_id_idx on player_alias (clan_id, player_id);
      create index player_alias_scope_id_idx on player_alias (clan_id, scope_id);

      create table event (
        clan_id uuid not null references clan,
        id uuid not null,
        scope_id integer not null,
        reference text not null,
        name text not null,
        starts_on date,
        ends_on date,
        rules_version text,
        status text not null default 'planned',
        structure text,
        source_id uuid,
        created_at timestamptz not null default now(),
        constraint event_pkey primary key (clan_id, id),
        constraint event_clan_id_reference_key unique (clan_id, reference),
        constraint event_clan_id_id_scope_id_key unique (clan_id, id, scope_id),
        constraint event_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint event_name_check check (length(name) between 1 and 200),
        constraint event_dates_check check (ends_on >= starts_on),
        constraint event_status_check check (status in ('planned', 'running', 'finished'))
      );
      create index event_id_idx on event (id);
      create index event_scope_id_idx on event (clan_id, scope_id);

      create table entrant (
        clan_id uuid not null,
        id uuid not null,
        scope_id integer not null,
        event_id uuid not null,
        player_id uuid not null,
        seed smallint,
        roster_notes text,
        constraint entrant_pkey primary key (clan_id, id),
        constraint entrant_clan_id_event_id_player_id_key unique (clan_id, event_id, player_id),
        constraint entrant_clan_id_event_id_id_key unique (clan_id, event_id, id),
        -- Entrants and matches are read by whoever reads the event, and move with it.
        constraint entrant_event_id_fkey foreign key (clan_id, event_id, scope_id)
          references event (clan_id, id, scope_id) on update cascade on delete cascade,
        constraint entrant_player_id_fkey foreign key (clan_id, player_id) references player (clan_id, id),
        constraint entrant_seed_check check (seed >= 1)
      );
      create index entrant_player_id_idx on entrant (clan_id, player_id);

      create table match (
        clan_id uuid not null,
        id uuid not null,
        scope_id integer not null,
        event_id uuid not null,
        round integer not null,
        position integer not null,
        home_entrant_id uuid,
        away_entrant_id uuid,
        winner_entrant_id uuid,
        best_of smallint not null default 1,
        home_wins smallint,
        away_wins smallint,
        status text not null default 'open',
        scheduled_at timestamptz,
        constraint match_pkey primary key (clan_id, id),
        constraint match_clan_id_event_id_round_position_key unique (clan_id, event_id, round, position),
        constraint match_clan_id_event_id_id_key unique (clan_id, event_id, id),
        constraint match_event_id_fkey foreign key (clan_id, event_id, scope_id)
          references event (clan_id, id, scope_id) on update cascade on delete cascade,
        constraint match_home_entrant_id_fkey foreign key (clan_id, event_id, home_entrant_id)
          references entrant (clan_id, event_id, id),
        constraint match_away_entrant_id_fkey foreign key (clan_id, event_id, away_entrant_id)
          references entrant (clan_id, event_id, id),
        constraint match_round_check check (round >= 1 and position >= 1),
        constraint match_wins_check check (best_of >= 1 and home_wins between 0 and best_of and away_wins between 0 and best_of),
        constraint match_status_check check (status in ('open', 'ready', 'finished', 'forfeited')),
        constraint match_away_entrant_id_check check (away_entrant_id <> home_entrant_id),
        constraint match_winner_entrant_id_check check (
          winner_entrant_id is null
          or winner_entrant_id is not distinct from home_entrant_id
          or winner_entrant_id is not distinct from away_entrant_id)
      );
      create index match_home_entrant_id_idx on match (clan_id, event_id, home_entrant_id);
      create index match_away_entrant_id_idx on match (clan_id, event_id, away_entrant_id);
    `);
    await db.query(
      ['player', 'player_alias', 'event', 'entrant', 'match'].map((table) => protectScoped(table)).join('\n'),
    );
    await db.query(`revoke execute on all functions in schema app from public`);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop table match, entrant, event, player_alias, player;
      drop function app.check_player_link;
    `);
  }
}
