import type { MigrationInterface, QueryRunner } from 'typeorm';

/** A person takes the own account out of the service; what was written for a clan stays, under a pseudonym. */
export class ErasePeople1767225600421 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- Beside the clans, like leaving one. Proof of the passphrase is asked of whoever has one: a session that was left
      -- open is not enough for what cannot be undone. The clan that would be left without an owner refuses all of it.
      create function app.erase_person(token_hash bytea, proof bytea, pseudonym text) returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        person uuid := app.session_person(token_hash);
        membership record;
        names text[];
      begin
        select array_remove(array[p.sign_in_name], null) into names from app.person p
         where p.id = person and (p.verifier is null or p.verifier = sha256(proof)) for update;
        if not found then
          raise exception 'the passphrase is not right' using errcode = 'RB008';
        end if;
        for membership in
          select k.clan_id, k.id, lower(k.name) as name, k.revoked_at is null as current
            from public.api_key k where k.person_id = person order by k.clan_id
        loop
          if membership.current then
            perform app.end_membership(membership.clan_id, membership.id);
          end if;
          -- Keys that the member named, and notes on the invitations that led here or were written by the member.
          update public.api_key k set name = 'key'
           where k.clan_id = membership.clan_id and k.made_by = membership.id;
          update public.invitation i set note = null
           where i.clan_id = membership.clan_id and membership.id in (i.accepted_by, i.made_by);
          -- Answers that are kept for requests that come again.
          delete from public.idempotency_key i
           where i.clan_id = membership.clan_id
             and exists (select from unnest(names || membership.name) n
                          where position(n in lower(i.response #>> '{}')) > 0);
          update public.api_key k set name = pseudonym, person_id = null
           where k.clan_id = membership.clan_id and k.id = membership.id;
          insert into public.audit_entry (clan_id, id, actor_key_id, action, subject_kind, subject_id)
          values (membership.clan_id, app.new_id(), membership.id, 'person.erased', 'member', membership.id);
        end loop;
        -- Sessions, and who it is elsewhere, go with it.
        delete from app.person p where p.id = person;
      end $body$;
      revoke execute on all functions in schema app from public;
      grant execute on function app.erase_person to roundbook_service;
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`drop function app.erase_person`);
  }
}
