import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * What nearly every question about a player begins with. As statements of the service each table in them asks its policy
 * anew what the reader may see, four times in all, which took longer than everything else that they do; here it is asked
 * once, and by the key itself, so that nothing need be sealed and verified on the way.
 */
export class AskOfPlayers1767225600450 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- Whose a key or the token of a session is.
      create function app.opened_by(key_hash bytea, out clan_id uuid, out key_id uuid, out rights text[])
      language plpgsql stable parallel restricted set search_path = pg_catalog, pg_temp as $body$
      begin
        select k.clan_id, k.id, k.rights into clan_id, key_id, rights
          from public.api_key k
         where k.key_hash = opened_by.key_hash and k.revoked_at is null and (k.expires_at is null or k.expires_at > now());
        if not found then
          select k.clan_id, k.id, k.rights into clan_id, key_id, rights
            from app.person_session s join public.api_key k on k.clan_id = s.clan_id and k.id = s.member_id
           where s.token_hash = opened_by.key_hash and s.expires_at > now() and s.last_used_at > now() - interval '7 days'
             and k.revoked_at is null;
          if not found then
            raise exception 'the key or session is not known, has expired or was revoked' using errcode = 'RB002';
          end if;
        end if;
      end $body$;
      revoke execute on function app.opened_by from public;

      create or replace function app.enter(key_hash bytea, out clan_id uuid, out key_id uuid, out rights text[])
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        opened text;
      begin
        select o.clan_id, o.key_id, o.rights into clan_id, key_id, rights from app.opened_by(key_hash) o;
        opened := clan_id || ' ' || key_id;
        perform set_config('roundbook.clan', opened || ' ' || app.seal(opened), true);
        -- Not to be undone: PostgreSQL lets nobody back to writing inside such a transaction.
        if not rights && array['write', 'manage'] then
          perform set_config('transaction_read_only', 'on', true);
        end if;
      end $body$;

      -- What a key reads: its clan's own scopes but other persons', and those that the clan or everybody was given.
      create function app.scopes_of_key(clan uuid, key uuid) returns integer[]
      language plpgsql stable parallel restricted set search_path = pg_catalog, pg_temp as $body$
      begin
        return array(
          select s.id from public.scope s
           where s.clan_id = clan
             and (s.kind <> 'person' or s.id = (select k.person_scope_id from public.api_key k
                                                 where k.clan_id = clan and k.id = key))
          union all
          select r.scope_id from public.scope_reader r where r.clan_id = clan
          union all
          select r.scope_id from public.scope_reader r where r.clan_id is null);
      end $body$;
      revoke execute on function app.scopes_of_key from public;

      create or replace function app.scopes() returns integer[]
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        link text := nullif(current_setting('roundbook.link', true), '');
        entered text;
      begin
        if link is not null then
          return app.scopes_of_link(link);
        end if;
        entered := app.entered();
        return app.scopes_of_key(left(entered, 36)::uuid, right(entered, 36)::uuid);
      end $body$;

      -- Changes whenever anything in these scopes does, or they are others.
      create function app.revision_of(scopes integer[]) returns text
      language plpgsql stable parallel restricted set search_path = pg_catalog, pg_temp as $body$
      begin
        return (select md5(coalesce(string_agg(s.id || ':' || s.revision, ' ' order by s.id), ''))
                  from public.scope s where s.id = any (scopes));
      end $body$;
      revoke execute on function app.revision_of from public;

      create or replace function app.archive_revision() returns text
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        -- Of no link, which is not to learn when anything changes.
        perform app.entered();
        return app.revision_of(app.scopes());
      end $body$;

      -- Every record that the key reads of the player whom the id belongs to, its clan's own first, each with the archive's
      -- revision as the key sees it. No row where it reads no such player. Enters nothing.
      create function app.player_by_key(key_hash bytea, asked uuid,
                                        out id uuid, out handle text, out identity uuid, out archive text)
      returns setof record
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        opened record;
        readable integer[];
        same uuid;
      begin
        select o.clan_id, o.key_id into opened from app.opened_by(key_hash) o;
        readable := app.scopes_of_key(opened.clan_id, opened.key_id);
        select coalesce(p.linked_player_id, p.id) into same from public.player p
         where p.id = asked and p.scope_id = any (readable)
         order by p.clan_id <> opened.clan_id limit 1;
        if not found then return; end if;
        archive := app.revision_of(readable);
        return query
          select p.id, p.handle, same, archive from public.player p
           where (p.id = same or p.linked_player_id = same) and p.scope_id = any (readable)
           order by p.clan_id <> opened.clan_id, p.id;
      end $body$;
      revoke execute on function app.player_by_key from public;
      grant execute on function app.player_by_key to roundbook_service;`);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop function app.player_by_key;
      create or replace function app.archive_revision() returns text
      language sql stable parallel restricted security invoker set search_path = pg_catalog, pg_temp as $body$
        select md5(coalesce(string_agg(s.id || ':' || s.revision, ' ' order by s.id), ''))
          from public.scope s where s.id = any ((select app.scopes())::integer[])
      $body$;
      drop function app.revision_of;

      create or replace function app.scopes() returns integer[]
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        link text := nullif(current_setting('roundbook.link', true), '');
        entered text;
        clan uuid;
        key uuid;
      begin
        if link is not null then
          return app.scopes_of_link(link);
        end if;
        entered := app.entered();
        clan := left(entered, 36);
        key := right(entered, 36);
        return array(
          select s.id from public.scope s
           where s.clan_id = clan
             and (s.kind <> 'person' or s.id = (select k.person_scope_id from public.api_key k
                                                 where k.clan_id = clan and k.id = key))
          union all
          select r.scope_id from public.scope_reader r where r.clan_id = clan
          union all
          select r.scope_id from public.scope_reader r where r.clan_id is null);
      end $body$;
      drop function app.scopes_of_key;

  create or replace function app.enter(key_hash bytea, out clan_id uuid, out key_id uuid, out rights text[])
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    opened text;
  begin
    select k.clan_id, k.id, k.rights into clan_id, key_id, rights
      from public.api_key k
     where k.key_hash = enter.key_hash and k.revoked_at is null and (k.expires_at is null or k.expires_at > now());
    if not found then
      select k.clan_id, k.id, k.rights into clan_id, key_id, rights
        from app.person_session s join public.api_key k on k.clan_id = s.clan_id and k.id = s.member_id
       where s.token_hash = enter.key_hash and s.expires_at > now() and s.last_used_at > now() - interval '7 days'
         and k.revoked_at is null;
      if not found then
        raise exception 'the key or session is not known, has expired or was revoked' using errcode = 'RB002';
      end if;
    end if;
    opened := clan_id || ' ' || key_id;
    perform set_config('roundbook.clan', opened || ' ' || app.seal(opened), true);
    -- Not to be undone: PostgreSQL lets nobody back to writing inside such a transaction.
    if not rights && array['write', 'manage'] then
      perform set_config('transaction_read_only', 'on', true);
    end if;
  end $body$;
      drop function app.opened_by;`);
  }
}
