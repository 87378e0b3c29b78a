import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protect } from './row-security.js';

/**
 * Links that open one round report to whoever has them, and an audit that owners read. A link enters no clan: inside it
 * `app.clan()` raises, so that nothing but the archive's rows can be read, and those only as far as the clan may show them.
 */
export class ShareReportsByLink1767225600331 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table share_link (
        clan_id uuid not null,
        id uuid not null,
        report_id uuid not null,
        token_hash bytea not null,
        prefix text not null,
        made_by uuid not null,
        created_at timestamptz not null default now(),
        expires_at timestamptz not null,
        revoked_at timestamptz,
        constraint share_link_pkey primary key (clan_id, id),
        -- Without the clan, as of keys: 256 random bits tell nobody anything.
        constraint share_link_token_hash_key unique (token_hash),
        constraint share_link_report_id_fkey foreign key (clan_id, report_id)
          references round_report (clan_id, id) on delete cascade,
        constraint share_link_made_by_fkey foreign key (clan_id, made_by) references api_key (clan_id, id),
        constraint share_link_token_hash_check check (length(token_hash) = 32),
        constraint share_link_expires_at_check check (expires_at > created_at)
      );
      create index share_link_report_id_idx on share_link (clan_id, report_id);
      create index share_link_made_by_idx on share_link (clan_id, made_by);
      ${protect('share_link', ['select', 'insert', 'update'], {
        read: `clan_id = (select app.clan())
               and exists (select from round_report r where r.clan_id = share_link.clan_id and r.id = report_id)`,
        // Only of a report that its maker can read: a foreign key would take any of the clan, also one person's.
        own: `clan_id = (select app.clan())
              and exists (select from round_report r where r.clan_id = share_link.clan_id and r.id = report_id)`,
      })}
      revoke select, insert, update on share_link from roundbook_service;
      grant select (clan_id, id, report_id, prefix, made_by, created_at, expires_at, revoked_at)
         on share_link to roundbook_service;
      grant insert (clan_id, id, report_id, token_hash, prefix, made_by, expires_at) on share_link to roundbook_service;
      grant update (revoked_at) on share_link to roundbook_service;

      alter policy audit_entry_select on audit_entry
        using (clan_id = (select app.clan()) and (select app.may('manage')));
    `);
    await db.query(`
      -- Opens what a link shows for the rest of the transaction, to be read only.
      create function app.enter_link(token_hash bytea, out clan_id uuid, out link_id uuid, out report_id uuid)
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        opened text;
      begin
        select l.clan_id, l.id, l.report_id into clan_id, link_id, report_id from public.share_link l
         where l.token_hash = enter_link.token_hash and l.revoked_at is null and l.expires_at > now();
        if not found then
          raise exception 'the link is not known, has expired or was revoked' using errcode = 'RB011';
        end if;
        opened := clan_id || ' ' || link_id;
        -- Sealed as a link, so that it is worthless as an entered clan.
        perform set_config('roundbook.link', opened || ' ' || app.seal('link ' || opened), true);
        perform set_config('transaction_read_only', 'on', true);
      end $body$;

      -- The clan's own scopes, public ones, and what others shared with it to be shown on; of one person's only that of
      -- the report itself.
      create function app.scopes_of_link(link text) returns integer[]
      language plpgsql stable parallel restricted set search_path = pg_catalog, pg_temp as $body$
      declare
        clan uuid := left(link, 36);
      begin
        if substr(link, 75) is distinct from app.seal('link ' || left(link, 73)) then
          raise exception 'the link is forged or belongs to another transaction' using errcode = 'RB003';
        end if;
        return array(
          select s.id from public.scope s where s.clan_id = clan and s.kind <> 'person'
          union all
          select r.scope_id from public.round_report r
            join public.share_link l on l.clan_id = r.clan_id and l.report_id = r.id
           where l.clan_id = clan and l.id = substr(link, 38, 36)::uuid
          union all
          select r.scope_id from public.scope_reader r where r.clan_id is null or r.clan_id = clan and r.may_reshare);
      end $body$;
      ${scopesFunction(LINK_FIRST)}
      revoke execute on all functions in schema app from public;
      grant execute on function app.enter_link to roundbook_service;
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      ${scopesFunction('')}
      drop function app.scopes_of_link, app.enter_link;
      alter policy audit_entry_select on audit_entry using (clan_id = (select app.clan()));
      drop table share_link;
    `);
  }
}

const LINK_FIRST = `
        if link is not null then
          return app.scopes_of_link(link);
        end if;`;

function scopesFunction(first: string): string {
  const link = first === '' ? '' : `link text := nullif(current_setting('roundbook.link', true), '');`;
  return `
      create or replace function app.scopes() returns integer[]
      language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        ${link}
        entered text;
        clan uuid;
        key uuid;
      begin${first}
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
      end $body$;`;
}
