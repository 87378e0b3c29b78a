import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * Right after a first import the statistics say that every table is empty, until autovacuum comes by: joins were planned
 * for no rows and ran into their time limit.
 */
export class AnalyzeGrownTables1767225600430 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- For the service, which owns no table and so may not ANALYZE one: every table that has grown by a tenth since its
      -- statistics were taken, which is also when autovacuum would do it (autovacuum_analyze_scale_factor). Only what
      -- joins and policies look at, the columns of its indexes: all 70 columns of the plays take seven times as long, and
      -- autovacuum still comes for the others. What somebody else is at is passed over. Tables of a few pages are
      -- planned well without. By name, so that two never wait for each other.
      create function app.analyze_grown_tables() returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        least_pages constant integer := 4;
        least_growth constant real := 1.1;
        grown record;
      begin
        for grown in
          select c.oid::regclass as name,
                 (select string_agg(distinct quote_ident(a.attname), ', ')
                    from pg_index i
                    join pg_attribute a on a.attrelid = c.oid and a.attnum = any(i.indkey)
                   where i.indrelid = c.oid) as columns
            from pg_class c
           where c.relnamespace = 'public'::regnamespace and c.relkind = 'r'
             and pg_relation_size(c.oid) / current_setting('block_size')::integer
                 >= greatest(least_pages, least_growth * c.relpages)
           order by c.relname
        loop
          execute format('analyze (skip_locked) %s (%s)', grown.name, grown.columns);
        end loop;
      end $body$;
      revoke execute on all functions in schema app from public;
      grant execute on function app.analyze_grown_tables to roundbook_service;
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`drop function app.analyze_grown_tables`);
  }
}
