import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * What of a clan there is to delete, and in which order, is asked of the catalog: a list of tables had to be written anew
 * with each of them, and one that was forgotten kept the whole clan.
 */
export class DeleteClanByCatalog1767225600351 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create or replace function app.delete_clan(clan_id uuid) returns void
      language plpgsql set search_path = pg_catalog, pg_temp as $body$
      declare
        relation regclass;
      begin
        -- Whatever points at others goes before them: by the longest way down the foreign keys.
        for relation in
          with recursive of_clan as (
            select a.attrelid as oid from pg_attribute a join pg_class c on c.oid = a.attrelid
             where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p')
               and a.attname = 'clan_id' and not a.attisdropped
          ), reference as (
            select distinct k.conrelid as child, k.confrelid as parent
              from pg_constraint k
             where k.contype = 'f' and k.conrelid <> k.confrelid
               and k.conrelid in (select oid from of_clan) and k.confrelid in (select oid from of_clan)
          ), step (oid, depth) as (
            select oid, 0 from of_clan
            union
            select r.child, s.depth + 1 from step s join reference r on r.parent = s.oid where s.depth < 100
          )
          select oid::regclass from step group by oid order by max(depth) desc, oid
        loop
          execute format('delete from %s where clan_id = $1', relation) using delete_clan.clan_id;
        end loop;
        delete from public.clan c where c.id = delete_clan.clan_id;
      end $body$;`);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      create or replace function app.delete_clan(clan_id uuid) returns void
      language plpgsql set search_path = pg_catalog, pg_temp as $body$
      declare
        relation text;
      begin
        foreach relation in array array['sheet_mapping', 'coaching_point', 'audit_entry', 'idempotency_key', 'import_receipt', 'round_report', 'own_call', 'menu_call', 'game', 'contest', 'match', 'entrant', 'event', 'player_alias', 'player', 'term_synonym', 'term', 'api_key', 'scope']
        loop
          execute format('delete from public.%I where clan_id = $1', relation) using delete_clan.clan_id;
        end loop;
        delete from public.clan c where c.id = delete_clan.clan_id;
      end $body$;`);
  }
}
