import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protect } from './row-security.js';

/**
 * One append-only dictionary of controlled terms. Starter terms have no clan and belong to everyone. Plays keep the
 * integer without a foreign key, which is why no term is ever deleted.
 */
export class CreateVocabulary1767225600001 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table term (
        id integer generated always as identity primary key,
        clan_id uuid references clan,
        kind text not null,
        code text,
        name text not null,
        normalised_name text not null,
        parent_id integer references term,
        starter_id integer references term,
        meaning text,
        called text,
        acted_by text,
        lane text,
        retired_at timestamptz,
        constraint term_code_key unique (code),
        constraint term_clan_id_kind_normalised_name_key unique nulls not distinct (clan_id, kind, normalised_name),
        constraint term_code_check check ((code is null) = (clan_id is not null)),
        constraint term_name_check check (length(name) between 1 and 80 and normalised_name <> ''),
        constraint term_starter_id_check check (starter_id is null or clan_id is not null),
        constraint term_called_check check (called in ('run', 'pass')),
        constraint term_acted_by_check check (acted_by in ('offense', 'defense')),
        constraint term_lane_check check (lane in ('left', 'middle', 'right'))
      );
      create index term_parent_id_idx on term (parent_id);
      create index term_starter_id_idx on term (starter_id);

      create table term_synonym (
        clan_id uuid references clan,
        term_id integer not null references term on delete cascade,
        kind text not null,
        normalised text not null,
        constraint term_synonym_clan_id_kind_normalised_key unique nulls not distinct (clan_id, kind, normalised),
        constraint term_synonym_normalised_check check (normalised <> '')
      );
      create index term_synonym_term_id_idx on term_synonym (term_id);

      -- What a foreign key cannot say: a term leads to starter terms and to terms of its own clan, never to another's.
      -- A term that does not exist and one of another clan are refused in the same words.
      create function app.require_reachable_term(term_id integer, clan_id uuid, what text) returns public.term
      language plpgsql stable security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        found_term public.term;
      begin
        select * into found_term from public.term t
         where t.id = term_id and (t.clan_id is null or t.clan_id = require_reachable_term.clan_id);
        if not found then
          raise exception '% is no term of this clan', what using errcode = 'foreign_key_violation';
        end if;
        return found_term;
      end $body$;

      create function app.check_term() returns trigger
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        target public.term;
      begin
        if tg_op = 'UPDATE' and (new.id, new.kind, new.code, new.clan_id) is distinct from (old.id, old.kind, old.code, old.clan_id) then
          raise exception 'id, kind, code and clan of a term are fixed' using errcode = 'check_violation';
        end if;
        if new.parent_id is not null then
          target := app.require_reachable_term(new.parent_id, new.clan_id, 'the parent');
        end if;
        if new.starter_id is not null then
          target := app.require_reachable_term(new.starter_id, new.clan_id, 'the starter term');
          if target.clan_id is not null or target.kind <> new.kind then
            raise exception 'a term stands for a starter term of its own kind' using errcode = 'check_violation';
          end if;
        end if;
        return new;
      end $body$;
      create trigger term_check before insert or update on term for each row execute function app.check_term();

      create function app.check_term_synonym() returns trigger
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        target public.term := app.require_reachable_term(new.term_id, new.clan_id, 'the word''s term');
      begin
        if target.kind <> new.kind then
          raise exception 'a synonym has the kind of its term' using errcode = 'check_violation';
        end if;
        return new;
      end $body$;
      create trigger term_synonym_check before insert or update on term_synonym
        for each row execute function app.check_term_synonym();

      -- What other clans' terms stand for, and nothing else about them: only for clans that let the asking one read
      -- something, and only where the term stands for a starter term.
      create function app.foreign_terms(ids integer[]) returns table (term_id integer, starter_id integer)
      language plpgsql stable security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        return query
          select t.id, t.starter_id from public.term t
           where t.id = any (ids) and t.starter_id is not null and t.clan_id <> app.clan()
             and t.clan_id in (select s.clan_id from public.scope s where s.id = any (app.scopes()));
      end $body$;
    `);
    await db.query(
      [
        protect('term', ['select', 'insert', 'update'], {
          read: 'clan_id is null or clan_id = (select app.clan())',
          own: 'clan_id = (select app.clan())',
        }),
        protect('term_synonym', ['select', 'insert', 'delete'], {
          read: 'clan_id is null or clan_id = (select app.clan())',
          own: 'clan_id = (select app.clan())',
        }),
        `revoke execute on all functions in schema app from public;
         grant execute on function app.foreign_terms to roundbook_service;`,
      ].join('\n'),
    );
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop function app.foreign_terms;
      drop table term_synonym;
      drop function app.check_term_synonym;
      drop trigger term_check on term;
      drop function app.check_term, app.require_reachable_term;
      drop table term;
    `);
  }
}
