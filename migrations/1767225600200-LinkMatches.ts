import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * Matches of every structure: the stage they belong to, and where the player on each side comes from. A side without a
 * source is entered by hand, or follows from round and position where no match of the event has one.
 */
export class LinkMatches1767225600200 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      alter table match
        add column stage text not null default 'main',
        -- {"from": "winner" | "loser", "stage", "round", "position"}, {"from": "place", "stage", "place"},
        -- {"from": "pairing"}; null: entered.
        add column home_source jsonb,
        add column away_source jsonb,
        -- A second final, played only where the first one was won by the player who had lost before.
        add column decider boolean not null default false,
        add constraint match_stage_check check (stage ~ '^(main|losers|final|third place|swiss|group [1-9][0-9]{0,3})$'),
        add constraint match_sources_check check (
          (home_source is null or jsonb_typeof(home_source) = 'object')
          and (away_source is null or jsonb_typeof(away_source) = 'object')),
        drop constraint match_clan_id_event_id_round_position_key,
        add constraint match_clan_id_event_id_stage_round_position_key unique (clan_id, event_id, stage, round, position);
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      alter table match
        drop constraint match_clan_id_event_id_stage_round_position_key,
        drop constraint match_sources_check,
        drop constraint match_stage_check,
        drop column decider,
        drop column away_source,
        drop column home_source,
        drop column stage,
        add constraint match_clan_id_event_id_round_position_key unique (clan_id, event_id, round, position);
    `);
  }
}
