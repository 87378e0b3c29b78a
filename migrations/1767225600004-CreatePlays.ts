import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectScoped } from './row-security.js';

/**
 * One row a snap, one column a field of the catalogue; a test proves that the two agree. Terms are integers without a
 * foreign key, since the dictionary only grows. A field that could not be seen is null.
 */
export class CreatePlays1767225600004 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table play (
        clan_id uuid not null,
        chart_id uuid not null,
        -- Given when the play is written and never again in its chart: evidence cites chart and number.
        play_number integer not null,
        order_in_game integer not null,
        scope_id integer not null,
        game_id uuid not null,
        offense_player_id uuid not null,
        defense_player_id uuid not null,
        -- Situation
        play_type text not null,
        quarter smallint,
        clock_seconds smallint,
        clock_running text,
        offense_timeouts smallint,
        defense_timeouts smallint,
        score_difference smallint,
        down smallint,
        distance smallint,
        yards_to_goal smallint,
        hash text,
        drive smallint,
        -- Before the snap, in the order in which it is seen
        tempo integer,
        offensive_personnel integer,
        defensive_personnel integer,
        formation integer,
        strength text,
        backfield integer,
        motion integer,
        motion_by text,
        front integer,
        alignment_adjustments integer[],
        shell integer,
        box_count smallint,
        pre_snap_adjustments integer[],
        manual_defender_start integer,
        line_up_second smallint,
        snap_second smallint,
        -- The call
        called text,
        call_family integer,
        play_fake text,
        run_pass_option text,
        run_pass_option_branch text,
        run_pass_option_tag integer,
        concept integer,
        designed_gap integer,
        designed_side text,
        -- The defense's play
        coverage integer,
        rushers smallint,
        pressure integer,
        pressure_path integer,
        pressure_side integer,
        pressure_source integer,
        pressure_shown text,
        manual_defender_action integer,
        -- What happened
        off_design text,
        actual_gap integer,
        actual_side text,
        target integer,
        target_number smallint,
        target_depth integer,
        target_zone integer,
        unblocked_rusher text,
        block_defeated text,
        passer_pressured text,
        -- Result
        snap_result integer,
        led_to integer[],
        yards_gained smallint,
        foul_side text,
        foul integer,
        foul_yards smallint,
        foul_answer text,
        foul_timing text,
        replayed text,
        -- Kicks
        kick_length smallint,
        return_yards smallint,
        fake text,
        -- Field -> seen, inferred, told or own call log, where somebody said so.
        known_by jsonb,
        -- Seconds left and trigger of each pre-snap adjustment, in their order.
        adjustment_details jsonb,
        note text,
        constraint play_pkey primary key (clan_id, chart_id, play_number),
        -- One key carries game and scope along: a game's change of scope moves its charts, and they move their plays.
        constraint play_chart_id_fkey foreign key (clan_id, chart_id, game_id, scope_id)
          references chart (clan_id, id, game_id, scope_id) on update cascade on delete cascade,
        constraint play_play_number_check check (play_number between 1 and 65535 and order_in_game between 1 and 65535),
        constraint play_defense_player_id_check check (defense_player_id <> offense_player_id),
        constraint play_down_check check (
          down is null or play_type not in ('kickoff', 'free kick', 'try kick', 'two-point try')),
        -- One check for all numbers: a row is tested once, and what is null passes.
        constraint play_range_check check (
          quarter between 1 and 12
          and clock_seconds between 0 and 900
          and offense_timeouts between 0 and 3
          and defense_timeouts between 0 and 3
          and score_difference between -127 and 127
          and down between 1 and 4
          and distance between 1 and 99
          and yards_to_goal between 1 and 99
          and drive between 1 and 99
          and box_count between 0 and 11
          and line_up_second between 0 and 32000
          and snap_second between 0 and 32000
          and rushers between 0 and 11
          and target_number between 0 and 99
          and yards_gained between -99 and 109
          and foul_yards between 0 and 60
          and kick_length between 0 and 109
          and return_yards between -99 and 109),
        constraint play_play_type_check check (play_type in (
          'scrimmage', 'kneel', 'spike', 'punt', 'field goal', 'kickoff', 'free kick', 'try kick',
          'two-point try')),
        constraint play_clock_running_check check (clock_running in ('no', 'yes')),
        constraint play_hash_check check (hash in ('left', 'middle', 'right')),
        constraint play_strength_check check (strength in ('left', 'right', 'balanced')),
        constraint play_motion_by_check check (motion_by in ('outside', 'slot', 'tight end', 'back', 'quarterback')),
        constraint play_called_check check (called in ('run', 'pass')),
        constraint play_play_fake_check check (play_fake in ('no', 'yes')),
        constraint play_run_pass_option_check check (run_pass_option in ('no', 'yes')),
        constraint play_run_pass_option_branch_check check (run_pass_option_branch in ('give', 'keep', 'throw')),
        constraint play_designed_side_check check (designed_side in ('left', 'middle', 'right')),
        constraint play_pressure_shown_check check (pressure_shown in (
          'shown and came', 'shown and dropped', 'not shown and came')),
        constraint play_off_design_check check (off_design in (
          'no', 'forced by a set edge', 'forced by penetration', 'forced by an unblocked rusher',
          'passer flushed', 'forced, cause unseen', 'read by design')),
        constraint play_actual_side_check check (actual_side in ('left', 'middle', 'right')),
        constraint play_unblocked_rusher_check check (unblocked_rusher in ('no', 'yes')),
        constraint play_block_defeated_check check (block_defeated in ('no', 'yes')),
        constraint play_passer_pressured_check check (passer_pressured in ('no', 'yes')),
        constraint play_foul_side_check check (foul_side in ('offense', 'defense')),
        constraint play_foul_answer_check check (foul_answer in ('accepted', 'declined', 'offset')),
        constraint play_foul_timing_check check (foul_timing in ('before the snap', 'after the snap')),
        constraint play_replayed_check check (replayed in ('no', 'yes')),
        constraint play_fake_check check (fake in ('no', 'yes'))
      );
      -- Not by clan: a player's plays are read over all scopes that the reader sees.
      create index play_offense_player_id_idx on play (offense_player_id, scope_id);
      create index play_defense_player_id_idx on play (defense_player_id, scope_id);
    `);
    await db.query(`
      -- The two players of a play are those of its game. Checked once a statement: two foreign keys to the players said
      -- less and took 40 % of the time of an import, this takes none that could be measured. Deleting a player is
      -- refused by the game's own keys.
      create function app.check_players_of_plays() returns trigger
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        if exists (
          select from (select distinct w.clan_id, w.game_id, w.offense_player_id, w.defense_player_id from written w) w
            left join public.game g on g.clan_id = w.clan_id and g.id = w.game_id
                  and w.offense_player_id in (g.home_player_id, g.away_player_id)
                  and w.defense_player_id in (g.home_player_id, g.away_player_id)
           where g.id is null) then
          raise exception 'the players of a play are the two of its game'
            using errcode = 'foreign_key_violation', constraint = 'play_players_check', table = 'play';
        end if;
        return null;
      end $body$;
      create trigger play_players_check_insert after insert on play
        referencing new table as written for each statement execute function app.check_players_of_plays();
      create trigger play_players_check_update after update on play
        referencing new table as written for each statement execute function app.check_players_of_plays();

      -- The same from the other side: once there are plays, a game's players may at most change places.
      create function app.check_players_of_game() returns trigger
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        -- Waits for everybody who writes charts or plays of the game, whose keys hold these rows.
        perform from public.game g where g.clan_id = new.clan_id and g.id = new.id for update;
        perform from public.chart c where c.clan_id = new.clan_id and c.game_id = new.id order by c.id for update;
        if exists (
          select from public.chart c join public.play p on p.clan_id = c.clan_id and p.chart_id = c.id
           where c.clan_id = new.clan_id and c.game_id = new.id
             and not (p.offense_player_id in (new.home_player_id, new.away_player_id)
                  and p.defense_player_id in (new.home_player_id, new.away_player_id))) then
          raise exception 'the game has plays of other players'
            using errcode = 'foreign_key_violation', constraint = 'game_players_check', table = 'game';
        end if;
        return new;
      end $body$;
      create trigger game_players_check before update of home_player_id, away_player_id on game
        for each row execute function app.check_players_of_game();
      revoke execute on all functions in schema app from public;
    `);
    await db.query(protectScoped('play'));
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop trigger game_players_check on game;
      drop table play;
      drop function app.check_players_of_game, app.check_players_of_plays;
    `);
  }
}
