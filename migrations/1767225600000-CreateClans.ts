import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protect } from './row-security.js';

/** Clans, the scopes that say who reads a row, the keys that open a clan, and the seal on an entered clan. */
export class CreateClans1767225600000 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create schema app;
      grant usage on schema app to roundbook_service;
      grant usage on schema public to roundbook_service;

      create table clan (
        id uuid primary key,
        name text not null,
        created_at timestamptz not null default now(),
        constraint clan_name_check check (length(name) between 1 and 80)
      );

      -- The number on every row that says who may read it.
      create table scope (
        id integer generated always as identity primary key,
        clan_id uuid not null references clan,
        kind text not null,
        -- Raised with every change of plays inside the scope; caches and ETags name it.
        revision bigint not null default 0,
        created_at timestamptz not null default now(),
        constraint scope_clan_id_id_key unique (clan_id, id),
        constraint scope_kind_check check (kind in ('private', 'event', 'share', 'person'))
      );
      create unique index scope_clan_id_private_key on scope (clan_id) where kind = 'private';

      -- Readers beside the owning clan. No clan means every clan.
      create table scope_reader (
        scope_id integer not null references scope on delete cascade,
        clan_id uuid references clan on delete cascade,
        constraint scope_reader_scope_id_clan_id_key unique nulls not distinct (scope_id, clan_id)
      );
      create index scope_reader_clan_id_idx on scope_reader (clan_id, scope_id);

      create table api_key (
        clan_id uuid not null references clan,
        id uuid not null,
        name text not null,
        -- First characters of the key, so that a person finds it in a list.
        prefix text not null,
        key_hash bytea not null,
        rights text[] not null,
        -- The scope that only the holder of this key reads, where the key is a person's.
        person_scope_id integer,
        created_at timestamptz not null default now(),
        expires_at timestamptz,
        revoked_at timestamptz,
        last_used_at timestamptz,
        constraint api_key_pkey primary key (clan_id, id),
        -- The one unique without the clan: 256 random bits tell nobody anything, and enter() finds the clan by them.
        constraint api_key_key_hash_key unique (key_hash),
        constraint api_key_person_scope_id_fkey foreign key (clan_id, person_scope_id) references scope (clan_id, id),
        constraint api_key_name_check check (length(name) between 1 and 80),
        constraint api_key_key_hash_check check (length(key_hash) = 32),
        constraint api_key_rights_check
          check (cardinality(rights) > 0 and rights <@ array['read', 'write', 'manage'])
      );
      create index api_key_person_scope_id_idx on api_key (clan_id, person_scope_id) where person_scope_id is not null;
    `);

    // HMAC-SHA256 by its definition (RFC 2104), since the core has sha256() but no hmac(): the padded keys are made once.
    await db.query(`
      create table app.seal_key (
        only_one boolean primary key default true,
        inner_pad bytea not null,
        outer_pad bytea not null,
        constraint seal_key_only_one_check check (only_one)
      );
      alter table app.seal_key enable row level security;
      alter table app.seal_key force row level security;
      create policy seal_key_owner on app.seal_key to roundbook_owner using (true) with check (true);

      -- A new key. What is entered at that moment is no longer accepted, so running requests fail once and are repeated.
      create function app.renew_seal_key() returns void
      language plpgsql set search_path = pg_catalog, pg_temp as $body$
      declare
        -- Four random uuids: 488 random bits, more than the digest keeps. Filled up to the block length of SHA-256.
        key bytea := uuid_send(gen_random_uuid()) || uuid_send(gen_random_uuid())
                  || uuid_send(gen_random_uuid()) || uuid_send(gen_random_uuid());
        inside bytea := key;
        outside bytea := key;
      begin
        for at in 0..63 loop
          inside := set_byte(inside, at, get_byte(key, at) # 54);   -- 0x36
          outside := set_byte(outside, at, get_byte(key, at) # 92); -- 0x5c
        end loop;
        delete from app.seal_key;
        insert into app.seal_key (inner_pad, outer_pad) values (inside, outside);
      end $body$;
      select app.renew_seal_key();

      -- What only this transaction of this session can be given: worthless when copied anywhere else.
      create function app.seal(opened text) returns text
      language sql stable parallel restricted set search_path = pg_catalog, pg_temp as $body$
        select encode(sha256(outer_pad || sha256(inner_pad || convert_to($1, 'UTF8') || int4send(pg_backend_pid())
                 || timestamptz_send(transaction_timestamp()))), 'hex')
          from app.seal_key
      $body$;
    `);

    await db.query(`
      -- Opens the clan of a key for the rest of the transaction, under every policy at once.
      create function app.enter(key_hash bytea, out clan_id uuid, out key_id uuid, out rights text[])
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        opened text;
      begin
        select k.clan_id, k.id, k.rights into clan_id, key_id, rights
          from public.api_key k
         where k.key_hash = enter.key_hash and k.revoked_at is null and (k.expires_at is null or k.expires_at > now());
        if not found then
          raise exception 'the key is not known, has expired or was revoked' using errcode = 'RB002';
        end if;
        opened := clan_id || ' ' || key_id;
        perform set_config('roundbook.clan', opened || ' ' || app.seal(opened), true);
        -- Not to be undone: PostgreSQL lets nobody back to writing inside such a transaction.
        if not 'write' = any (rights) then
          perform set_config('transaction_read_only', 'on', true);
        end if;
      end $body$;

      -- What was entered, clan and key with a space between. Raises rather than returns nothing, so that a forgotten
      -- enter() is noticed.
      create function app.entered() returns text
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        -- After a transaction that set it, the setting is '' and not null.
        entered text := nullif(current_setting('roundbook.clan', true), '');
        opened text := left(entered, 73);
      begin
        if entered is null then
          raise exception 'no clan was entered in this transaction' using errcode = 'RB001';
        end if;
        -- Only what enter() wrote has a valid seal, so what passes is well-formed too.
        if substr(entered, 75) is distinct from app.seal(opened) then
          raise exception 'the entered clan is forged or belongs to another transaction' using errcode = 'RB003';
        end if;
        return opened;
      end $body$;

      create function app.clan() returns uuid
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        return left(app.entered(), 36)::uuid;
      end $body$;

      create function app.key_id() returns uuid
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        return right(app.entered(), 36)::uuid;
      end $body$;

      -- Whether the entered key has a right beyond reading and writing.
      create function app.may(wanted text) returns boolean
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        entered text := app.entered();
      begin
        return exists (select from public.api_key k where k.clan_id = left(entered, 36)::uuid
                          and k.id = right(entered, 36)::uuid and wanted = any (k.rights));
      end $body$;

      create function app.require_right(wanted text) returns void
      language plpgsql stable set search_path = pg_catalog, pg_temp as $body$
      begin
        if not app.may(wanted) then
          raise exception 'this key has no right to %', wanted using errcode = 'RB005';
        end if;
      end $body$;

      -- Scopes whose rows the entered clan owns; of its people's scopes only that of the key's holder.
      create function app.own_scopes() returns integer[]
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        entered text := app.entered();
        clan uuid := left(entered, 36);
        key uuid := right(entered, 36);
      begin
        return array(
          select s.id from public.scope s
           where s.clan_id = clan
             and (s.kind <> 'person' or s.id = (select k.person_scope_id from public.api_key k
                                                 where k.clan_id = clan and k.id = key)));
      end $body$;

      -- Scopes that the entered clan reads now: its own, those granted to it and those granted to everyone. One may stand
      -- there twice, which harms nobody.
      create function app.scopes() returns integer[]
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        entered text := app.entered();
        clan uuid := left(entered, 36);
        key uuid := right(entered, 36);
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

      -- Whether every clan reads the scope. False too for a scope that the asking clan knows nothing of.
      create function app.is_public(scope_id integer) returns boolean
      language sql stable parallel restricted set search_path = pg_catalog, pg_temp as $body$
        select exists (select from public.scope_reader r where r.scope_id = $1 and r.clan_id is null)
      $body$;

      -- Changes whenever anything that the entered clan reads changes, or what it may read does.
      create function app.archive_revision() returns text
      language sql stable parallel restricted set search_path = pg_catalog, pg_temp as $body$
        select md5(coalesce(string_agg(s.id || ':' || s.revision, ' ' order by s.id), ''))
          from public.scope s where s.id = any ((select app.scopes())::integer[])
      $body$;

      -- To be called last in a transaction that changed plays: every writer of a scope waits for its row.
      create function app.raise_scope_revision(scope_ids integer[]) returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        -- In order of id, so that two writers cannot lock the same rows the other way round.
        perform from public.scope s
          where s.id = any (scope_ids) and s.id = any (app.own_scopes()) order by s.id for no key update;
        update public.scope s set revision = s.revision + 1
          where s.id = any (scope_ids) and s.id = any (app.own_scopes());
      end $body$;

      -- For the owner's command line only: a clan with the scope of its private rows, which it returns.
      create function app.create_clan(clan_id uuid, clan_name text) returns integer
      language sql set search_path = pg_catalog, pg_temp as $body$
        insert into public.clan (id, name) values ($1, $2);
        insert into public.scope (clan_id, kind) values ($1, 'private') returning id;
      $body$;
    `);

    await db.query(
      [
        protect('clan', ['select', 'update'], {
          read: 'id = (select app.clan())',
          own: 'id = (select app.clan())',
        }),
        // Private scopes come with the clan and event scopes with publishing; revisions rise through the function.
        protect('scope', ['select', 'insert'], {
          // Own ones by clan as well: scopes() does not know of one that the very statement makes.
          read: 'clan_id = (select app.clan()) or id = any ((select app.scopes())::integer[])',
          own: `clan_id = (select app.clan()) and kind in ('share', 'person')`,
        }),
        protect('scope_reader', ['select'], {
          read: `clan_id is null or clan_id = (select app.clan())
                 or scope_id = any ((select app.own_scopes())::integer[])`,
          own: 'false',
        }),
        // A key that could make keys could make itself any right.
        protect('api_key', ['select', 'insert', 'update'], {
          read: 'clan_id = (select app.clan())',
          own: `clan_id = (select app.clan()) and (select app.may('manage'))`,
        }),
        `-- A digest opens the clan with the rights of its key, so the service can write one but never read one back.
         revoke select, insert, update on api_key from roundbook_service;
         grant select (clan_id, id, name, prefix, rights, person_scope_id, created_at, expires_at, revoked_at,
                       last_used_at) on api_key to roundbook_service;
         grant insert (clan_id, id, name, prefix, key_hash, rights, person_scope_id, expires_at)
            on api_key to roundbook_service;
         grant update (name, expires_at, revoked_at, last_used_at) on api_key to roundbook_service;
         revoke update on clan from roundbook_service;
         grant update (name) on clan to roundbook_service;

         revoke execute on all functions in schema app from public;
         grant execute on function app.enter, app.clan, app.key_id, app.may, app.own_scopes, app.scopes,
                                   app.is_public, app.archive_revision, app.raise_scope_revision to roundbook_service;`,
      ].join('\n'),
    );
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop table api_key, scope_reader, scope, clan, app.seal_key;
      drop function app.require_right, app.may, app.enter, app.clan, app.key_id, app.own_scopes, app.scopes, app.is_public, app.archive_revision,
                    app.raise_scope_revision, app.create_clan, app.entered, app.seal, app.renew_seal_key;
      revoke usage on schema public from roundbook_service;
      drop schema app;
    `);
  }
}
