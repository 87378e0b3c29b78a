import type { MigrationInterface, QueryRunner } from 'typeorm';

/** An event may grade the units of a roster on an ordered scale of its own, from the least to the best. */
export class GradeUnits1767225600021 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      alter table event add column grade_scale text[],
        add constraint event_grade_scale_check check (cardinality(grade_scale) between 2 and 20);
      alter table entrant add column unit_grades jsonb not null default '{}',
        add constraint entrant_unit_grades_check check (jsonb_typeof(unit_grades) = 'object');
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      alter table entrant drop column unit_grades;
      alter table event drop column grade_scale;
    `);
  }
}
