import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectScoped } from './row-security.js';

/** Of a reconciled chart: which records each of its plays was made of, so that a play keeps its number when it is rebuilt. */
export class CreateReconciliations1767225600100 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table reconciliation (
        clan_id uuid not null,
        chart_id uuid not null,
        scope_id integer not null,
        -- The highest play number ever given in this chart; none is given twice.
        last_play_number integer not null,
        -- Array of {playNumber, members: [{chartId, playNumber}]}.
        plays jsonb not null,
        constraint reconciliation_pkey primary key (clan_id, chart_id),
        constraint reconciliation_chart_id_fkey foreign key (clan_id, chart_id, scope_id)
          references chart (clan_id, id, scope_id) on update cascade on delete cascade,
        constraint reconciliation_plays_check check (jsonb_typeof(plays) = 'array' and last_play_number >= 0)
      );
      create index reconciliation_chart_id_idx on reconciliation (chart_id);
      -- What counts of a game is one chart.
      create unique index chart_reconciled_key on chart (clan_id, game_id) where kind = 'reconciled';
    `);
    await db.query(protectScoped('reconciliation'));
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop index chart_reconciled_key;
      drop table reconciliation;
    `);
  }
}
