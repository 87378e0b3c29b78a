import type { MigrationInterface, QueryRunner } from 'typeorm';

/** What a clan knows of who a player is can be taken out of it; the plays stay under a pseudonym, or go. */
export class ErasePlayers1767225600332 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- As the owner, since notes that only one member reads are erased too.
      create function app.erase_player(player_id uuid, pseudonym text, remove_plays boolean) returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        clan uuid := app.clan();
        names text[];
        contests uuid[];
        scopes integer[];
      begin
        perform app.require_right('manage');
        select array[lower(p.handle)] into names from public.player p
         where p.clan_id = clan and p.id = erase_player.player_id and p.scope_id = any (app.own_scopes()) for update;
        if not found then
          raise exception 'no player of this clan has this id' using errcode = 'RB004';
        end if;
        select names || coalesce(array_agg(lower(a.alias)), '{}') into names from public.player_alias a
         where a.clan_id = clan and a.player_id = erase_player.player_id;
        select array_agg(distinct g.scope_id) into scopes from public.game g
         where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id);

        delete from public.player_alias a where a.clan_id = clan and a.player_id = erase_player.player_id;
        delete from public.coaching_point c where c.clan_id = clan and c.player_id = erase_player.player_id;
        update public.entrant e set roster_notes = null, unit_grades = '{}'
         where e.clan_id = clan and e.player_id = erase_player.player_id;
        -- Links would tell by another record who it was.
        update public.player p
           set handle = pseudonym, normalised_handle = pseudonym, linked_player_id = null, source_id = null
         where p.clan_id = clan and p.id = erase_player.player_id;
        -- Free texts that name the player: notes lose the text, references become the id.
        update public.play y set note = null
          from public.game g
         where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id)
           and y.clan_id = clan and y.game_id = g.id
           and exists (select from unnest(names) n where position(n in lower(y.note)) > 0);
        update public.game g set reference = g.id::text
         where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id)
           and exists (select from unnest(names) n where position(n in lower(g.reference)) > 0);
        -- Answers that are kept for requests that come again.
        delete from public.idempotency_key i
         where i.clan_id = clan
           and (position(erase_player.player_id::text in i.response #>> '{}') > 0
                or exists (select from unnest(names) n where position(n in lower(i.response #>> '{}')) > 0));

        if remove_plays then
          select array_agg(g.contest_id) into contests from public.game g
           where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id);
          delete from public.game g
           where g.clan_id = clan and erase_player.player_id in (g.home_player_id, g.away_player_id);
          delete from public.contest c
           where c.clan_id = clan and c.id = any (contests)
             and not exists (select from public.game g where g.clan_id = clan and g.contest_id = c.id);
          delete from public.round_report r where r.clan_id = clan and r.opponent_player_id = erase_player.player_id;
          -- In a bracket the place stays, under the pseudonym.
          delete from public.player p
           where p.clan_id = clan and p.id = erase_player.player_id
             and not exists (select from public.entrant e where e.clan_id = clan and e.player_id = p.id);
        end if;
        perform app.raise_scope_revision(scopes || (select s.id from public.scope s
                                                     where s.clan_id = clan and s.kind = 'private'));
      end $body$;
      revoke execute on all functions in schema app from public;
      grant execute on function app.erase_player to roundbook_service;
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`drop function app.erase_player`);
  }
}
