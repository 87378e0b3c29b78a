import type { MigrationInterface, QueryRunner } from 'typeorm';

/** A term may count as another one from some day on. Plays keep what they were charted with. */
export class MergeTerms1767225600022 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      alter table term add column merged_into_id integer references term,
        add constraint term_merged_into_id_check
          check (merged_into_id is null or merged_into_id <> id and clan_id is not null);
      create index term_merged_into_id_idx on term (merged_into_id) where merged_into_id is not null;

      create function app.check_term_merger() returns trigger
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        target public.term := app.require_reachable_term(new.merged_into_id, new.clan_id, 'the term it is merged into');
      begin
        if target.kind <> new.kind or target.merged_into_id is not null then
          raise exception 'a term is merged into one of its own kind that counts as itself'
            using errcode = 'check_violation', constraint = 'term_merged_into_id_check';
        end if;
        return new;
      end $body$;
      create trigger term_merger_check before insert or update of merged_into_id on term
        for each row when (new.merged_into_id is not null) execute function app.check_term_merger();

      create or replace function app.foreign_terms(ids integer[]) returns table (term_id integer, starter_id integer)
      language plpgsql stable security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        return query
          select f.id, f.counts_as from (
            select t.id, case when m.id is null then t.starter_id when m.clan_id is null then m.id else m.starter_id end
                           as counts_as
              from public.term t left join public.term m on m.id = t.merged_into_id
             where t.id = any (ids) and t.clan_id <> app.clan()
               and t.clan_id in (select s.clan_id from public.scope s where s.id = any (app.scopes()))) f
           where f.counts_as is not null;
      end $body$;
      revoke execute on all functions in schema app from public;
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      create or replace function app.foreign_terms(ids integer[]) returns table (term_id integer, starter_id integer)
      language plpgsql stable security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        return query
          select t.id, t.starter_id from public.term t
           where t.id = any (ids) and t.starter_id is not null and t.clan_id <> app.clan()
             and t.clan_id in (select s.clan_id from public.scope s where s.id = any (app.scopes()));
      end $body$;
      drop trigger term_merger_check on term;
      drop function app.check_term_merger;
      alter table term drop column merged_into_id;
    `);
  }
}
