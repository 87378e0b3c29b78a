import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Two people of a clan may each log their calls of one game for themselves; neither learns that the other does. */
export class LetRowsBePersonal1767225600302 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      alter table own_call
        drop constraint own_call_clan_id_game_id_order_in_game_side_key,
        add constraint own_call_clan_id_scope_id_game_id_order_in_game_side_key
          unique (clan_id, scope_id, game_id, order_in_game, side);
      create index own_call_game_id_idx on own_call (clan_id, game_id);
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop index own_call_game_id_idx;
      alter table own_call
        drop constraint own_call_clan_id_scope_id_game_id_order_in_game_side_key,
        add constraint own_call_clan_id_game_id_order_in_game_side_key unique (clan_id, game_id, order_in_game, side);
    `);
  }
}
