import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protect } from './row-security.js';

/** How a person comes into a clan: by a link that works once, and with whatever proves who it is. */
export class CreateInvitations1767225600301 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      create table invitation (
        clan_id uuid not null references clan,
        id uuid not null,
        role text not null,
        -- For whom, as the owner wrote it down.
        note text,
        prefix text not null,
        token_hash bytea not null,
        made_by uuid not null,
        created_at timestamptz not null default now(),
        expires_at timestamptz not null,
        accepted_at timestamptz,
        accepted_by uuid,
        constraint invitation_pkey primary key (clan_id, id),
        -- Without the clan, as with keys: 256 random bits tell nobody anything.
        constraint invitation_token_hash_key unique (token_hash),
        constraint invitation_made_by_fkey foreign key (clan_id, made_by) references api_key (clan_id, id),
        constraint invitation_accepted_by_fkey foreign key (clan_id, accepted_by) references api_key (clan_id, id),
        constraint invitation_role_check check (role in ('owner', 'analyst', 'reader')),
        constraint invitation_note_check check (length(note) between 1 and 80),
        constraint invitation_accepted_check check ((accepted_at is null) = (accepted_by is null)),
        constraint invitation_token_hash_check check (length(token_hash) = 32)
      );
      create index invitation_made_by_idx on invitation (clan_id, made_by);
      create index invitation_accepted_by_idx on invitation (clan_id, accepted_by);

      -- Who somebody is at an OpenID provider: the digest of a proof that the service makes of issuer, subject and a
      -- secret of its own, so that neither is kept here, and no SQL can name them.
      create table app.person_identity (
        proof_hash bytea primary key,
        person_id uuid not null references app.person on delete cascade,
        created_at timestamptz not null default now(),
        constraint person_identity_person_id_key unique (person_id),
        constraint person_identity_proof_hash_check check (length(proof_hash) = 32)
      );
      alter table app.person_identity enable row level security;
      alter table app.person_identity force row level security;
      create policy person_identity_owner on app.person_identity to roundbook_owner using (true) with check (true);
    `);
    await db.query(`
      ${protect('invitation', ['select', 'insert', 'delete'], {
        read: `clan_id = (select app.clan()) and (select app.may('manage'))`,
        own: `clan_id = (select app.clan()) and (select app.may('manage'))`,
      })}
      alter policy invitation_insert on invitation with check (
        clan_id = (select app.clan()) and (select app.may('manage')) and made_by = (select app.key_id())
        and accepted_at is null and expires_at <= now() + interval '30 days');
      revoke select, insert on invitation from roundbook_service;
      grant select (clan_id, id, role, note, prefix, made_by, created_at, expires_at, accepted_at, accepted_by),
            insert (clan_id, id, role, note, prefix, token_hash, made_by, expires_at) on invitation to roundbook_service;
    `);
    await db.query(`
      -- The invitation of a link that still works, made by somebody who may still invite.
      create function app.open_invitation(token_hash bytea) returns public.invitation
      language plpgsql set search_path = pg_catalog, pg_temp as $body$
      declare
        opened public.invitation;
      begin
        select i.* into opened
          from public.invitation i join public.api_key k on k.clan_id = i.clan_id and k.id = i.made_by
         where i.token_hash = open_invitation.token_hash and i.accepted_at is null and i.expires_at > now()
           and k.revoked_at is null and 'manage' = any (k.rights)
           for no key update of i;
        if not found then
          raise exception 'the invitation is not known, was used or withdrawn, or has expired' using errcode = 'RB009';
        end if;
        return opened;
      end $body$;

      create function app.invitation_behind(token_hash bytea, out clan_name text, out role text, out expires_at timestamptz)
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        opened public.invitation := app.open_invitation(token_hash);
      begin
        clan_name := (select c.name from public.clan c where c.id = opened.clan_id);
        role := opened.role;
        expires_at := opened.expires_at;
      end $body$;

      create function app.use_invitation(token_hash bytea, person_id uuid, member_id uuid, member_name text, audit_id uuid)
      returns uuid language plpgsql set search_path = pg_catalog, pg_temp as $body$
      declare
        opened public.invitation := app.open_invitation(token_hash);
        member uuid;
      begin
        perform app.make_member(opened.clan_id, member_id, person_id, member_name, opened.role);
        select k.id into member from public.api_key k
         where k.clan_id = opened.clan_id and k.person_id = use_invitation.person_id;
        update public.invitation i set accepted_at = now(), accepted_by = member
         where i.clan_id = opened.clan_id and i.id = opened.id;
        insert into public.audit_entry (clan_id, id, actor_key_id, action, subject_kind, subject_id, details)
        values (opened.clan_id, audit_id, member, 'member.joined', 'member', member,
                jsonb_build_object('role', opened.role));
        return opened.clan_id;
      end $body$;

      -- Accepts as somebody new, who signs in by passphrase, or elsewhere and then has neither name nor passphrase here.
      create function app.join_clan(token_hash bytea, person_id uuid, sign_in_name text, salt bytea, memory_kib integer,
                                    passes integer, lanes integer, proof bytea, identity_proof bytea, member_id uuid,
                                    member_name text, audit_id uuid) returns uuid
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        if num_nonnulls(proof, identity_proof) <> 1 then
          raise exception 'one way to sign in is needed' using errcode = 'RB008';
        end if;
        perform app.make_person(person_id, sign_in_name, salt, memory_kib, passes, lanes, proof);
        if identity_proof is not null then
          insert into app.person_identity (proof_hash, person_id) values (sha256(identity_proof), person_id);
        end if;
        return app.use_invitation(token_hash, person_id, member_id, member_name, audit_id);
      end $body$;

      -- Accepts as the person of a session.
      create function app.join_clan_as(token_hash bytea, session_hash bytea, member_id uuid, member_name text,
                                       audit_id uuid) returns uuid
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        return app.use_invitation(token_hash, app.session_person(session_hash), member_id, member_name, audit_id);
      end $body$;

      create function app.sign_in_elsewhere(identity_proof bytea, session_id uuid, token_hash bytea, user_agent text,
                                            wanted_clan_id uuid) returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        person uuid;
      begin
        select i.person_id into person from app.person_identity i where i.proof_hash = sha256(identity_proof);
        if not found then
          raise exception 'nobody here signs in as that' using errcode = 'RB008';
        end if;
        perform app.open_session(person, session_id, token_hash, user_agent, wanted_clan_id);
      end $body$;

      -- From now on the person of the session signs in there too; what it was before is replaced.
      create function app.link_identity(session_hash bytea, identity_proof bytea) returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        person uuid := app.session_person(session_hash);
      begin
        delete from app.person_identity i where i.person_id = person;
        insert into app.person_identity (proof_hash, person_id) values (sha256(identity_proof), person);
      end $body$;

      revoke execute on all functions in schema app from public;
      grant execute on function app.invitation_behind, app.join_clan, app.join_clan_as, app.sign_in_elsewhere,
                                app.link_identity,
                                -- Asked by a check of api_key, whoever writes there.
                                app.rights_of_role
         to roundbook_service;
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      revoke execute on function app.rights_of_role from roundbook_service;
      drop function app.link_identity, app.sign_in_elsewhere, app.join_clan_as, app.join_clan, app.use_invitation,
                    app.invitation_behind, app.open_invitation;
      drop table app.person_identity, invitation;
    `);
  }
}
