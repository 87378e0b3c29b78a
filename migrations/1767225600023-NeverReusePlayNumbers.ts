import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Evidence cites chart and number, so the number of a play that was removed must not come back for another one. */
export class NeverReusePlayNumbers1767225600023 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- The highest number that was removed; the next play takes one more than this and than any that is there.
      alter table chart add column last_removed_number integer not null default 0,
        add constraint chart_last_removed_number_check check (last_removed_number >= 0);
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`alter table chart drop column last_removed_number`);
  }
}
