import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectScoped } from './row-security.js';

/** What a clan thinks of a match-up, put over what the ratings say; its own, and never part of a published event. */
export class CreateMatchUpOverrides1767225600201 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table match_up_override (
        clan_id uuid not null references clan,
        id uuid not null,
        scope_id integer not null,
        player_id uuid not null,
        opponent_player_id uuid not null,
        win_probability double precision not null,
        reason text,
        constraint match_up_override_pkey primary key (clan_id, id),
        constraint match_up_override_clan_id_player_id_opponent_player_id_key
          unique (clan_id, player_id, opponent_player_id),
        constraint match_up_override_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id),
        constraint match_up_override_player_id_fkey
          foreign key (clan_id, player_id) references player (clan_id, id) on delete cascade,
        constraint match_up_override_opponent_player_id_fkey
          foreign key (clan_id, opponent_player_id) references player (clan_id, id) on delete cascade,
        constraint match_up_override_opponent_player_id_check check (opponent_player_id <> player_id),
        constraint match_up_override_win_probability_check check (win_probability > 0 and win_probability < 1),
        constraint match_up_override_reason_check check (length(reason) <= 500)
      );
      create index match_up_override_opponent_player_id_idx on match_up_override (clan_id, opponent_player_id);
      create index match_up_override_scope_id_idx on match_up_override (clan_id, scope_id);
    `);
    await db.query(protectScoped('match_up_override'));
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`drop table match_up_override`);
  }
}
