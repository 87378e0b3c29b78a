import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * People, how they sign in, and their sessions; a member of a clan acts in it as a row of `api_key`, as a program does.
 *
 * A person belongs to no clan, so no policy can say who reads one: the service has no right to these tables at all. It
 * calls narrow functions, each of which asks for proof that only the person has (what argon2id made of the passphrase, or
 * the digest of a session's token). So SQL that was injected can neither read a verifier nor open anybody's session.
 */
export class CreatePeople1767225600300 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(TABLES);
    await db.query(MEMBERS);
    await db.query(ENTERING);
    await db.query(SIGNING_IN);
    await db.query(SESSIONS);
    await db.query(MEMBERSHIP);
    await db.query(RIGHTS);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop policy api_key_insert on api_key;
      drop policy api_key_update on api_key;
      drop function app.note_use, app.my_scope, app.rights, app.set_role, app.hand_over, app.remove_member, app.leave_clan,
                    app.end_membership, app.require_owner, app.change_passphrase, app.move_session, app.end_session,
                    app.person_sessions, app.session_of, app.session_person, app.open_session, app.sign_in,
                    app.passphrase_of, app.sign_up, app.make_person, app.make_member, app.service_is_fresh;
      ${ENTER_BEFORE}
      create policy api_key_insert on api_key for insert to roundbook_service
        with check (clan_id = (select app.clan()) and (select app.may('manage')));
      create policy api_key_update on api_key for update to roundbook_service
        using (clan_id = (select app.clan()) and (select app.may('manage')))
        with check (clan_id = (select app.clan()) and (select app.may('manage')));
      drop table app.person_session;
      delete from api_key where key_hash is null or rights && array['profiles'];
      alter table api_key
        drop constraint api_key_role_check, drop constraint api_key_kind_check, drop constraint api_key_made_by_fkey,
        drop constraint api_key_person_id_fkey, drop constraint api_key_clan_id_person_id_key,
        drop constraint api_key_rights_check,
        drop column role, drop column person_id, drop column made_by,
        alter column key_hash set not null,
        add constraint api_key_rights_check
          check (cardinality(rights) > 0 and rights <@ array['read', 'write', 'manage']);
      drop function app.rights_of_role;
      drop table app.person;
    `);
  }
}

const TABLES = `
  create table app.person (
    id uuid primary key,
    -- As normalised by the service; null for who signs in elsewhere only.
    sign_in_name text,
    -- How argon2id makes the proof of a passphrase, and the digest of that proof.
    salt bytea,
    memory_kib integer,
    passes integer,
    lanes integer,
    verifier bytea,
    created_at timestamptz not null default now(),
    constraint person_sign_in_name_key unique (sign_in_name),
    constraint person_sign_in_name_check check (length(sign_in_name) between 1 and 80),
    constraint person_verifier_check check (length(verifier) = 32 and length(salt) >= 16),
    constraint person_passphrase_check
      check (num_nonnulls(sign_in_name, salt, memory_kib, passes, lanes, verifier) in (0, 6))
  );
  alter table app.person enable row level security;
  alter table app.person force row level security;
  create policy person_owner on app.person to roundbook_owner using (true) with check (true);

  create table app.person_session (
    id uuid primary key,
    person_id uuid not null references app.person on delete cascade,
    token_hash bytea not null,
    -- Which clan it is in, and as which member; null for a person who is in none.
    clan_id uuid,
    member_id uuid,
    -- As the browser called itself, so that a person knows which session is which.
    user_agent text,
    created_at timestamptz not null default now(),
    last_used_at timestamptz not null default now(),
    expires_at timestamptz not null,
    constraint person_session_token_hash_key unique (token_hash),
    constraint person_session_token_hash_check check (length(token_hash) = 32),
    constraint person_session_member_id_check check ((clan_id is null) = (member_id is null)),
    constraint person_session_member_id_fkey foreign key (clan_id, member_id)
      references api_key (clan_id, id) on delete set null (clan_id, member_id)
  );
  create index person_session_person_id_idx on app.person_session (person_id);
  create index person_session_member_id_idx on app.person_session (clan_id, member_id);
  alter table app.person_session enable row level security;
  alter table app.person_session force row level security;
  create policy person_session_owner on app.person_session to roundbook_owner using (true) with check (true);`;

const MEMBERS = `
  create function app.rights_of_role(role text) returns text[]
  language sql immutable set search_path = pg_catalog, pg_temp as $body$
    select case $1 when 'owner' then array['read', 'write', 'manage'] when 'analyst' then array['read', 'write']
                   when 'reader' then array['read'] end
  $body$;

  -- A row is either a program's key, with a digest, or a member, with a role. What a member wrote stays signed by the
  -- row when the member is gone (revoked) and even when the person is erased (person_id null).
  alter table api_key
    add column role text,
    add column person_id uuid,
    add column made_by uuid,
    alter column key_hash drop not null,
    drop constraint api_key_rights_check,
    add constraint api_key_rights_check
      check (cardinality(rights) > 0 and rights <@ array['profiles', 'read', 'write', 'manage']),
    add constraint api_key_role_check check (role in ('owner', 'analyst', 'reader')),
    add constraint api_key_kind_check check ((role is null) = (key_hash is not null)
      and (role is null or rights = app.rights_of_role(role)) and (person_id is null or role is not null)),
    add constraint api_key_person_id_fkey foreign key (person_id) references app.person on delete set null,
    add constraint api_key_clan_id_person_id_key unique (clan_id, person_id),
    add constraint api_key_made_by_fkey foreign key (clan_id, made_by) references api_key (clan_id, id);
  create index api_key_person_id_idx on api_key (person_id) where person_id is not null;
  create index api_key_made_by_idx on api_key (clan_id, made_by) where made_by is not null;

  -- What the entered key or member may do; who may manage may do everything.
  create function app.rights() returns text[]
  language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    entered text := app.entered();
  begin
    return (select case when 'manage' = any (k.rights) then array['profiles', 'read', 'write', 'manage']
                        when 'read' = any (k.rights) then k.rights || 'profiles'::text else k.rights end
              from public.api_key k where k.clan_id = left(entered, 36)::uuid and k.id = right(entered, 36)::uuid);
  end $body$;

  -- The scope that only the entered member, or the holder of the entered key, reads; null where there is none.
  create function app.my_scope() returns integer
  language plpgsql stable parallel restricted security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    entered text := app.entered();
  begin
    return (select k.person_scope_id from public.api_key k
             where k.clan_id = left(entered, 36)::uuid and k.id = right(entered, 36)::uuid);
  end $body$;

  -- Nobody makes a key that may do more than its maker, nor one that reads another person's rows.
  alter policy api_key_insert on api_key with check (
    clan_id = (select app.clan()) and made_by = (select app.key_id()) and rights <@ (select app.rights())
    and (person_scope_id is null or person_scope_id = (select app.my_scope())));
  -- Members are changed by the functions below, which keep a clan from losing its last owner.
  alter policy api_key_update on api_key
    using (clan_id = (select app.clan()) and role is null
           and (made_by = (select app.key_id()) or (select app.may('manage'))))
    with check (clan_id = (select app.clan()) and role is null
           and (made_by = (select app.key_id()) or (select app.may('manage'))));
  grant select (role, made_by), insert (made_by) on api_key to roundbook_service;`;

const ENTERING = `
  -- Opens the clan of a key, or of a session's member, for the rest of the transaction, under every policy at once.
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

  -- When keys and sessions were last used, told by the service now and then: a request that only reads cannot write it.
  create function app.note_use(digests bytea[], at timestamptz[]) returns void
  language sql security definer set search_path = pg_catalog, pg_temp as $body$
    update public.api_key k set last_used_at = greatest(k.last_used_at, n.at)
      from unnest($1, $2) n (digest, at) where k.key_hash = n.digest;
    update app.person_session s set last_used_at = greatest(s.last_used_at, n.at)
      from unnest($1, $2) n (digest, at) where s.token_hash = n.digest;
  $body$;`;

const SIGNING_IN = `
  create function app.service_is_fresh() returns boolean
  language sql stable security definer set search_path = pg_catalog, pg_temp as $body$
    select not exists (select from public.clan)
  $body$;

  create function app.make_person(person_id uuid, sign_in_name text, salt bytea, memory_kib integer, passes integer,
                                  lanes integer, proof bytea) returns void
  language sql set search_path = pg_catalog, pg_temp as $body$
    insert into app.person (id, sign_in_name, salt, memory_kib, passes, lanes, verifier)
    values ($1, $2, $3, $4, $5, $6, sha256($7));
  $body$;

  -- A member with a scope of its own. Who was one before, and left, is the same member again.
  create function app.make_member(clan_id uuid, member_id uuid, person_id uuid, member_name text, role text) returns void
  language plpgsql set search_path = pg_catalog, pg_temp as $body$
  declare
    mine integer;
  begin
    update public.api_key k
       set name = member_name, role = make_member.role, rights = app.rights_of_role(make_member.role), revoked_at = null
     where k.clan_id = make_member.clan_id and k.person_id = make_member.person_id and k.revoked_at is not null;
    if found then return; end if;
    if exists (select from public.api_key k
                where k.clan_id = make_member.clan_id and k.person_id = make_member.person_id) then
      raise exception 'this person is a member already' using errcode = 'RB010';
    end if;
    insert into public.scope (clan_id, kind) values (make_member.clan_id, 'person') returning id into mine;
    insert into public.api_key (clan_id, id, name, prefix, rights, role, person_id, person_scope_id)
    values (make_member.clan_id, member_id, member_name, '', app.rights_of_role(make_member.role), make_member.role,
            make_member.person_id, mine);
  end $body$;

  -- The first person of a service, who owns its first clan. Afterwards people come by invitation.
  create function app.sign_up(person_id uuid, sign_in_name text, salt bytea, memory_kib integer, passes integer,
                              lanes integer, proof bytea, clan_id uuid, clan_name text, member_id uuid, member_name text)
  returns void language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  begin
    -- Two at the same moment would both find it fresh. Any fixed number does.
    perform pg_advisory_xact_lock(730402);
    if not app.service_is_fresh() then
      raise exception 'this service has a clan already; ask its owner for an invitation' using errcode = 'RB006';
    end if;
    perform app.create_clan(clan_id, clan_name);
    perform app.make_person(person_id, sign_in_name, salt, memory_kib, passes, lanes, proof);
    perform app.make_member(clan_id, member_id, person_id, member_name, 'owner');
  end $body$;

  -- How to make the proof of a passphrase; the verifier stays here.
  create function app.passphrase_of(sign_in_name text, out salt bytea, out memory_kib integer, out passes integer,
                                    out lanes integer)
  language sql stable security definer set search_path = pg_catalog, pg_temp as $body$
    select p.salt, p.memory_kib, p.passes, p.lanes from app.person p where p.sign_in_name = $1
  $body$;

  -- A new session of a person: in the wanted clan, else in the one that was used last, else in the one joined first.
  create function app.open_session(person_id uuid, session_id uuid, token_hash bytea, user_agent text,
                                   wanted_clan_id uuid) returns void
  language plpgsql set search_path = pg_catalog, pg_temp as $body$
  begin
    delete from app.person_session s where s.expires_at < now() or s.last_used_at < now() - interval '7 days';
    insert into app.person_session (id, person_id, token_hash, user_agent, expires_at, clan_id, member_id)
    select session_id, open_session.person_id, open_session.token_hash, left(open_session.user_agent, 200),
           now() + interval '30 days', k.clan_id, k.id
      from (select) always
      left join lateral (
        select k.clan_id, k.id from public.api_key k
         where k.person_id = open_session.person_id and k.revoked_at is null
         order by k.clan_id is not distinct from wanted_clan_id desc,
                  (select max(s.last_used_at) from app.person_session s
                    where s.person_id = k.person_id and s.clan_id = k.clan_id) desc nulls last, k.created_at, k.clan_id
         limit 1) k on true;
  end $body$;

  -- With another way of making the proof, where the one it was made with is no longer what the service asks for.
  create function app.sign_in(sign_in_name text, proof bytea, session_id uuid, token_hash bytea, user_agent text,
                              wanted_clan_id uuid, new_salt bytea, new_memory_kib integer, new_passes integer,
                              new_lanes integer, new_proof bytea) returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    person uuid;
  begin
    select p.id into person from app.person p
     where p.sign_in_name = sign_in.sign_in_name and p.verifier = sha256(proof);
    if not found then
      raise exception 'the name or the passphrase is not right' using errcode = 'RB008';
    end if;
    if new_proof is not null then
      update app.person p set salt = new_salt, memory_kib = new_memory_kib, passes = new_passes, lanes = new_lanes,
                              verifier = sha256(new_proof)
       where p.id = person;
    end if;
    perform app.open_session(person, session_id, token_hash, user_agent, wanted_clan_id);
  end $body$;`;

const SESSIONS = `
  -- Whose session it is. Raises, so that no caller forgets to ask.
  create function app.session_person(token_hash bytea) returns uuid
  language plpgsql stable set search_path = pg_catalog, pg_temp as $body$
  declare
    person uuid;
  begin
    select s.person_id into person from app.person_session s
     where s.token_hash = session_person.token_hash and s.expires_at > now()
       and s.last_used_at > now() - interval '7 days';
    if not found then
      raise exception 'the session is not known or has ended' using errcode = 'RB002';
    end if;
    return person;
  end $body$;

  -- A session, its person and where that person is a member.
  create function app.session_of(token_hash bytea, out session_id uuid, out sign_in_name text, out clan_id uuid,
                                 out member_id uuid, out created_at timestamptz, out expires_at timestamptz, out clans jsonb)
  language plpgsql stable security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    person uuid := app.session_person(token_hash);
  begin
    select s.id, p.sign_in_name, k.clan_id, k.id, s.created_at, s.expires_at
      into session_id, sign_in_name, clan_id, member_id, created_at, expires_at
      from app.person_session s join app.person p on p.id = s.person_id
      left join public.api_key k on k.clan_id = s.clan_id and k.id = s.member_id and k.revoked_at is null
     where s.token_hash = session_of.token_hash;
    select coalesce(jsonb_agg(jsonb_build_object('clanId', c.id, 'clanName', c.name, 'memberId', k.id,
                                                 'memberName', k.name, 'role', k.role)
                              order by k.created_at, c.id), '[]')
      into clans
      from public.api_key k join public.clan c on c.id = k.clan_id
     where k.person_id = person and k.revoked_at is null;
  end $body$;

  create function app.person_sessions(token_hash bytea)
  returns table (session_id uuid, user_agent text, created_at timestamptz, last_used_at timestamptz,
                 expires_at timestamptz, own boolean)
  language plpgsql stable security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    person uuid := app.session_person(token_hash);
  begin
    return query select s.id, s.user_agent, s.created_at, s.last_used_at, s.expires_at,
                        s.token_hash = person_sessions.token_hash
      from app.person_session s
     where s.person_id = person and s.expires_at > now() and s.last_used_at > now() - interval '7 days'
     order by s.last_used_at desc, s.id;
  end $body$;

  -- Ends a session of the same person, this one where none is named; false when there is no such session.
  create function app.end_session(token_hash bytea, session_id uuid) returns boolean
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    person uuid := app.session_person(token_hash);
  begin
    delete from app.person_session s
     where s.person_id = person
       and case when end_session.session_id is null then s.token_hash = end_session.token_hash
                else s.id = end_session.session_id end;
    return found;
  end $body$;

  -- The session goes on in another clan of the person, under another token, since it may now do something else.
  create function app.move_session(token_hash bytea, new_token_hash bytea, clan_id uuid) returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    person uuid := app.session_person(token_hash);
  begin
    update app.person_session s
       set token_hash = new_token_hash, clan_id = k.clan_id, member_id = k.id, last_used_at = now()
      from public.api_key k
     where s.token_hash = move_session.token_hash and k.person_id = person and k.clan_id = move_session.clan_id
       and k.revoked_at is null;
    if not found then
      raise exception 'this person is in no such clan' using errcode = 'RB004';
    end if;
  end $body$;

  -- Ends every other session of the person, and gives this one another token.
  create function app.change_passphrase(token_hash bytea, old_proof bytea, salt bytea, memory_kib integer, passes integer,
                                        lanes integer, proof bytea, new_token_hash bytea) returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    person uuid := app.session_person(token_hash);
  begin
    update app.person p
       set salt = change_passphrase.salt, memory_kib = change_passphrase.memory_kib, passes = change_passphrase.passes,
           lanes = change_passphrase.lanes, verifier = sha256(proof)
     where p.id = person and p.verifier = sha256(old_proof);
    if not found then
      raise exception 'the passphrase is not right' using errcode = 'RB008';
    end if;
    delete from app.person_session s where s.person_id = person and s.token_hash <> change_passphrase.token_hash;
    update app.person_session s set token_hash = new_token_hash where s.token_hash = change_passphrase.token_hash;
  end $body$;`;

const MEMBERSHIP = `
  -- Waits for whoever else is about to change who owns the clan. Raises when without this member nobody would.
  create function app.require_owner(clan_id uuid, without_member_id uuid) returns void
  language plpgsql set search_path = pg_catalog, pg_temp as $body$
  begin
    perform from public.clan c where c.id = require_owner.clan_id for no key update;
    if exists (select from public.api_key k where k.clan_id = require_owner.clan_id and k.id = without_member_id
                  and k.role = 'owner' and k.revoked_at is null)
       and not exists (select from public.api_key k where k.clan_id = require_owner.clan_id
                          and k.id <> without_member_id and k.role = 'owner' and k.revoked_at is null) then
      raise exception 'the clan would have no owner' using errcode = 'RB007';
    end if;
  end $body$;

  -- What ends with a membership: the sessions in the clan, the keys and invitations that the member made and so has
  -- seen, and the rows that nobody else could read. What was written for the clan stays.
  create function app.end_membership(clan_id uuid, member_id uuid) returns void
  language plpgsql set search_path = pg_catalog, pg_temp as $body$
  declare
    mine integer;
    relation text;
  begin
    perform app.require_owner(clan_id, member_id);
    update public.api_key k set revoked_at = now()
     where k.clan_id = end_membership.clan_id and k.id = member_id and k.role is not null and k.revoked_at is null
    returning k.person_scope_id into mine;
    if not found then
      raise exception 'the clan has no such member' using errcode = 'RB004';
    end if;
    update app.person_session s set clan_id = null, member_id = null
     where s.clan_id = end_membership.clan_id and s.member_id = end_membership.member_id;
    with recursive made as (
      select k.id from public.api_key k where k.clan_id = end_membership.clan_id and k.made_by = member_id
      union select k.id from made m join public.api_key k
              on k.clan_id = end_membership.clan_id and k.made_by = m.id)
    update public.api_key k set revoked_at = now()
     where k.clan_id = end_membership.clan_id and k.id in (select id from made) and k.revoked_at is null;
    foreach relation in array array['coaching_point', 'own_call', 'menu_call', 'round_report'] loop
      execute format('delete from public.%I where clan_id = $1 and scope_id = $2', relation)
        using end_membership.clan_id, mine;
    end loop;
  end $body$;

  create function app.remove_member(member_id uuid) returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  begin
    perform app.require_right('manage');
    perform app.end_membership(app.clan(), member_id);
  end $body$;

  -- Beside the clan rather than inside it, since a reader, who writes nothing, may leave too.
  create function app.leave_clan(token_hash bytea, clan_id uuid, audit_id uuid) returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    person uuid := app.session_person(token_hash);
    member uuid;
  begin
    select k.id into member from public.api_key k
     where k.person_id = person and k.clan_id = leave_clan.clan_id and k.revoked_at is null;
    if not found then
      raise exception 'this person is in no such clan' using errcode = 'RB004';
    end if;
    perform app.end_membership(leave_clan.clan_id, member);
    insert into public.audit_entry (clan_id, id, actor_key_id, action, subject_kind, subject_id)
    values (leave_clan.clan_id, audit_id, member, 'member.left', 'member', member);
  end $body$;

  create function app.set_role(member_id uuid, role text) returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    clan uuid := app.clan();
  begin
    perform app.require_right('manage');
    if set_role.role <> 'owner' then
      perform app.require_owner(clan, member_id);
    end if;
    update public.api_key k set role = set_role.role, rights = app.rights_of_role(set_role.role)
     where k.clan_id = clan and k.id = member_id and k.role is not null and k.revoked_at is null;
    if not found then
      raise exception 'the clan has no such member' using errcode = 'RB004';
    end if;
    -- A key does not outlast the right of its maker to make it.
    update public.api_key k set revoked_at = now()
     where k.clan_id = clan and k.made_by = member_id and k.revoked_at is null
       and not k.rights <@ (array['profiles'] || app.rights_of_role(set_role.role));
  end $body$;

  -- The other becomes owner and the asking owner analyst, in one step.
  create function app.hand_over(member_id uuid) returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  begin
    perform app.set_role(member_id, 'owner');
    perform app.set_role(app.key_id(), 'analyst');
  end $body$;`;

const RIGHTS = `
  revoke execute on all functions in schema app from public;
  grant execute on function app.rights, app.my_scope, app.note_use, app.service_is_fresh, app.sign_up, app.passphrase_of,
                            app.sign_in, app.session_of, app.person_sessions, app.end_session, app.move_session,
                            app.change_passphrase, app.remove_member, app.leave_clan, app.set_role, app.hand_over
     to roundbook_service;`;

/** As it was, for the way back. */
const ENTER_BEFORE = `
  create or replace function app.enter(key_hash bytea, out clan_id uuid, out key_id uuid, out rights text[])
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
  end $body$;`;
