import type { MigrationInterface, QueryRunner } from 'typeorm';

/** A call that can be got into at the line is an answer once the formation is seen; the others are from the huddle. */
export class MarkCallsReachedByCheck1767225600400 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`alter table menu_call add column reachable_by_check boolean not null default false`);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`alter table menu_call drop column reachable_by_check`);
  }
}
