import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * What nearly every question about a player begins with. As statements of the service each table in them asks its policy
 * anew what the reader may see, four times in all, which took longer than everything else that they do; here it is asked
 * once.
 */
export class AskOfPlayers1767225600450 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- Changes whenever anything in these scopes does.
      create function app.revision_of(scopes integer[]) returns text
      language sql stable parallel restricted set search_path = pg_catalog, pg_temp as $body$
        select md5(coalesce(string_agg(s.id || ':' || s.revision, ' ' order by s.id), ''))
          from public.scope s where s.id = any ($1)
      $body$;
      revoke execute on function app.revision_of from public;

      create or replace function app.archive_revision() returns text
      language sql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
        select app.revision_of(app.scopes())
      $body$;

      -- Every record that the reader may see of the player whom the id belongs to, those of one clan first, each with the
      -- archive's revision. No row where the reader may see no such player.
      create function app.player_in_archive(asked uuid, own uuid, out id uuid, out handle text, out identity uuid, out archive text)
      returns setof record
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        readable integer[] := app.scopes();
        same uuid;
      begin
        select coalesce(p.linked_player_id, p.id) into same from public.player p
         where p.id = asked and p.scope_id = any (readable)
         order by p.clan_id <> own limit 1;
        if not found then return; end if;
        archive := app.revision_of(readable);
        return query
          select p.id, p.handle, same, archive from public.player p
           where (p.id = same or p.linked_player_id = same) and p.scope_id = any (readable)
           order by p.clan_id <> own, p.id;
      end $body$;
      revoke execute on function app.player_in_archive from public;
      grant execute on function app.player_in_archive to roundbook_service;`);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop function app.player_in_archive;
      create or replace function app.archive_revision() returns text
      language sql stable parallel restricted security invoker set search_path = pg_catalog, pg_temp as $body$
        select md5(coalesce(string_agg(s.id || ':' || s.revision, ' ' order by s.id), ''))
          from public.scope s where s.id = any ((select app.scopes())::integer[])
      $body$;
      drop function app.revision_of;`);
  }
}
