import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectScoped } from './row-security.js';

/** What was played, where its film is, and who charted how much of it. */
export class CreateGames1767225600003 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- What really happened, once, however many clans have a record of it.
      create table contest (
        clan_id uuid not null references clan,
        id uuid not null,
        scope_id integer not null,
        -- The public or shared contest that this clan says is the same. No foreign key: it may be withdrawn again.
        linked_contest_id uuid,
        constraint contest_pkey primary key (clan_id, id),
        constraint contest_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint contest_linked_contest_id_check check (linked_contest_id <> id)
      );
      create index contest_id_idx on contest (id);
      create index contest_linked_contest_id_idx on contest (linked_contest_id) where linked_contest_id is not null;
      create index contest_scope_id_idx on contest (clan_id, scope_id);

      create table game (
        clan_id uuid not null references clan,
        id uuid not null,
        scope_id integer not null,
        contest_id uuid not null,
        reference text not null,
        event_id uuid,
        match_id uuid,
        game_number smallint not null default 1,
        round integer,
        home_player_id uuid not null,
        away_player_id uuid not null,
        played_at timestamptz,
        importance text not null,
        rules_version text,
        quarter_minutes smallint,
        -- Fouls, clock run-off, fatigue, wind: whatever of the simulation's settings changes play.
        settings jsonb not null default '{}',
        home_squad text,
        away_squad text,
        coin_toss text,
        home_score smallint,
        away_score smallint,
        ending text not null default 'completed',
        created_at timestamptz not null default now(),
        constraint game_pkey primary key (clan_id, id),
        constraint game_clan_id_reference_key unique (clan_id, reference),
        constraint game_clan_id_id_scope_id_key unique (clan_id, id, scope_id),
        constraint game_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint game_contest_id_fkey foreign key (clan_id, contest_id) references contest (clan_id, id),
        constraint game_event_id_fkey foreign key (clan_id, event_id) references event (clan_id, id),
        constraint game_match_id_fkey foreign key (clan_id, event_id, match_id)
          references match (clan_id, event_id, id) on delete set null (match_id),
        constraint game_home_player_id_fkey foreign key (clan_id, home_player_id) references player (clan_id, id),
        constraint game_away_player_id_fkey foreign key (clan_id, away_player_id) references player (clan_id, id),
        constraint game_away_player_id_check check (away_player_id <> home_player_id),
        constraint game_match_id_check check (match_id is null or event_id is not null),
        constraint game_round_check check (round >= 1 and game_number >= 1),
        constraint game_quarter_minutes_check check (quarter_minutes between 1 and 15),
        constraint game_score_check check (home_score >= 0 and away_score >= 0),
        constraint game_importance_check check (importance in ('scrimmage', 'group', 'elimination')),
        constraint game_ending_check check (ending in ('completed', 'conceded', 'disconnected'))
      );
      create index game_id_idx on game (id);
      create index game_contest_id_idx on game (clan_id, contest_id);
      create index game_event_id_idx on game (clan_id, event_id, match_id);
      -- The player first and alone: a reader's look-up goes over all clans whose games it may see.
      create index game_home_player_id_idx on game (home_player_id, scope_id);
      create index game_away_player_id_idx on game (away_player_id, scope_id);
      create index game_scope_id_idx on game (clan_id, scope_id);

      create table game_video (
        clan_id uuid not null,
        id uuid not null,
        scope_id integer not null,
        game_id uuid not null,
        kind text not null,
        url text not null,
        -- Second of this video at which second 0 of the charted film is.
        offset_seconds integer not null default 0,
        constraint game_video_pkey primary key (clan_id, id),
        -- Film and charts are read by whoever reads the game, and move with it.
        constraint game_video_game_id_fkey foreign key (clan_id, game_id, scope_id)
          references game (clan_id, id, scope_id) on update cascade on delete cascade,
        constraint game_video_kind_check check (kind in ('own view', 'opponent view', 'neutral', 'highlights')),
        constraint game_video_url_check check (url ~ '^https?://' and length(url) <= 2000)
      );
      create index game_video_game_id_idx on game_video (clan_id, game_id, scope_id);

      create table chart (
        clan_id uuid not null,
        id uuid not null,
        scope_id integer not null,
        game_id uuid not null,
        reference text not null,
        kind text not null default 'charted',
        charted_by text,
        charted_at timestamptz,
        -- How much of the film it covers: sides, downs, quarters, fields; a part that is null is covered whole.
        film_scope jsonb not null default '{"offense": null, "downs": null, "quarters": null, "fields": null}',
        -- 0 for the whole film, more the narrower: what counts is chosen by it.
        film_scope_rank smallint not null default 0,
        revision integer not null default 1,
        plays integer not null default 0,
        content_hash bytea,
        created_at timestamptz not null default now(),
        constraint chart_pkey primary key (clan_id, id),
        constraint chart_clan_id_game_id_reference_key unique (clan_id, game_id, reference),
        constraint chart_clan_id_id_game_id_scope_id_key unique (clan_id, id, game_id, scope_id),
        constraint chart_clan_id_id_scope_id_key unique (clan_id, id, scope_id),
        constraint chart_game_id_fkey foreign key (clan_id, game_id, scope_id)
          references game (clan_id, id, scope_id) on update cascade on delete cascade,
        constraint chart_kind_check check (kind in ('charted', 'reconciled', 'own call log')),
        constraint chart_film_scope_check check (jsonb_typeof(film_scope) = 'object' and film_scope_rank >= 0),
        constraint chart_revision_check check (revision >= 1 and plays >= 0),
        constraint chart_content_hash_check check (length(content_hash) = 32)
      );
      create index chart_id_idx on chart (id);
      create index chart_game_id_idx on chart (game_id);

      -- The plays of a chart as packed columns, written in the transaction that changes them.
      create table chart_pack (
        clan_id uuid not null,
        chart_id uuid not null,
        scope_id integer not null,
        format smallint not null,
        revision integer not null,
        plays integer not null,
        bytes bytea not null,
        constraint chart_pack_pkey primary key (clan_id, chart_id),
        constraint chart_pack_chart_id_fkey foreign key (clan_id, chart_id, scope_id)
          references chart (clan_id, id, scope_id) on update cascade on delete cascade,
        constraint chart_pack_revision_check check (format >= 1 and revision >= 1 and plays >= 0)
      );
      create index chart_pack_chart_id_idx on chart_pack (chart_id);
      -- Packed already: another attempt to make it smaller costs time and gains nothing.
      alter table chart_pack alter column bytes set storage external;
    `);
    await db.query(
      ['contest', 'game', 'game_video', 'chart', 'chart_pack'].map((table) => protectScoped(table)).join('\n'),
    );
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`drop table chart_pack, chart, game_video, game, contest`);
  }
}
