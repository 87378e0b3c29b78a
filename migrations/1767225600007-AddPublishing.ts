import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * Who reads a scope, changed in one row and seen by the next statement of everybody. An event's first publishing moves
 * its rows into a scope of their own; afterwards publishing and withdrawing only add and remove the reader.
 */
export class AddPublishing1767225600007 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- Lets a clan (or, with null, every clan) read an own scope. What is private or one person's is never granted:
      -- it holds rows that nobody chose to show.
      create function app.grant_scope(scope_id integer, reader_clan_id uuid) returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        perform app.require_right('manage');
        perform from public.scope s
          where s.id = grant_scope.scope_id and s.clan_id = app.clan() and s.kind in ('event', 'share') for key share;
        if not found then
          raise exception 'no scope of this clan that can be granted has this id' using errcode = 'RB004';
        end if;
        insert into public.scope_reader (scope_id, clan_id) values (grant_scope.scope_id, reader_clan_id)
          on conflict do nothing;
      end $body$;

      create function app.revoke_scope(scope_id integer, reader_clan_id uuid) returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        perform app.require_right('manage');
        delete from public.scope_reader r
         where r.scope_id = revoke_scope.scope_id and r.clan_id is not distinct from reader_clan_id
           and r.scope_id in (select s.id from public.scope s where s.clan_id = app.clan());
      end $body$;

      -- Whoever reads a game or an entrant must be able to read who that is. So the player's record goes along, unless
      -- it can be read as widely already. It has one scope; a public one is preferred to a shared one.
      create function app.show_players(clan_id uuid, scope_id integer, player_ids uuid[]) returns void
      language sql set search_path = pg_catalog, pg_temp as $body$
        update public.player p set scope_id = $2
          from public.scope target, public.scope held
         where target.id = $2 and target.kind in ('event', 'share')
           and p.clan_id = $1 and p.id = any ($3) and held.id = p.scope_id and held.id <> $2
           and (held.kind in ('private', 'person') or not app.is_public(held.id) and app.is_public($2))
      $body$;

      create function app.show_player_of_entrant() returns trigger
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        perform app.show_players(new.clan_id, new.scope_id, array[new.player_id]);
        return null;
      end $body$;
      create trigger entrant_show_player after insert or update of player_id, scope_id on entrant
        for each row execute function app.show_player_of_entrant();

      create function app.show_players_of_game() returns trigger
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      begin
        perform app.show_players(new.clan_id, new.scope_id, array[new.home_player_id, new.away_player_id]);
        return null;
      end $body$;
      create trigger game_show_players after insert or update of home_player_id, away_player_id, scope_id on game
        for each row execute function app.show_players_of_game();

      -- Makes an own event readable by every clan, with entrants, matches, games, contests, films, charts, plays and the
      -- records of its players; returns the scope. Own calls, menu, reports and aliases stay where they are.
      create function app.publish_event(event_id uuid) returns integer
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        clan uuid := app.clan();
        from_scope integer;
        to_scope integer;
        players uuid[];
      begin
        perform app.require_right('manage');
        select e.scope_id into from_scope from public.event e
         where e.clan_id = clan and e.id = event_id for no key update;
        if not found then
          raise exception 'no event of this clan has this id' using errcode = 'RB004';
        end if;
        select s.id into to_scope from public.scope s where s.id = from_scope and s.kind = 'event';
        if not found then
          insert into public.scope (clan_id, kind) values (clan, 'event') returning id into to_scope;
        end if;
        perform app.grant_scope(to_scope, null);
        -- Entrants and matches follow by their foreign keys, and so do film, charts, packs and plays of the games.
        update public.event e set scope_id = to_scope
         where e.clan_id = clan and e.id = event_id and e.scope_id <> to_scope;
        update public.contest c set scope_id = to_scope
         where c.clan_id = clan and c.scope_id <> to_scope
           and c.id in (select g.contest_id from public.game g where g.clan_id = clan and g.event_id = publish_event.event_id);
        update public.game g set scope_id = to_scope
         where g.clan_id = clan and g.event_id = publish_event.event_id and g.scope_id <> to_scope;
        -- A second publishing moves no row, but players may have been left behind by the withdrawal between.
        select array_agg(n.player_id) into players from (
          select n.player_id from public.entrant n where n.clan_id = clan and n.event_id = publish_event.event_id
          union select unnest(array[g.home_player_id, g.away_player_id]) from public.game g
            where g.clan_id = clan and g.event_id = publish_event.event_id) n;
        perform app.show_players(clan, to_scope, players);
        return to_scope;
      end $body$;

      -- Takes it back from everybody at their next statement. A player's record that another public event needs moves
      -- there; the other rows stay in the event's scope, which only this clan reads from now on.
      create function app.withdraw_event(event_id uuid) returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        clan uuid := app.clan();
        withdrawn integer;
      begin
        perform app.require_right('manage');
        select e.scope_id into withdrawn from public.event e
          join public.scope s on s.id = e.scope_id and s.kind = 'event'
         where e.clan_id = clan and e.id = event_id for no key update of e;
        if not found then
          raise exception 'no published event of this clan has this id' using errcode = 'RB004';
        end if;
        delete from public.scope_reader r where r.scope_id = withdrawn;
        update public.player p set scope_id = other.scope_id
          from (select player_id, min(n.scope_id) as scope_id
                  from (select n.player_id, n.scope_id from public.entrant n where n.clan_id = clan
                        union select g.home_player_id, g.scope_id from public.game g where g.clan_id = clan
                        union select g.away_player_id, g.scope_id from public.game g where g.clan_id = clan) n
                 where app.is_public(n.scope_id) group by player_id) other
         where p.clan_id = clan and p.scope_id = withdrawn and p.id = other.player_id;
      end $body$;

      revoke execute on all functions in schema app from public;
      grant execute on function app.grant_scope, app.revoke_scope, app.publish_event, app.withdraw_event
         to roundbook_service;
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop trigger game_show_players on game;
      drop trigger entrant_show_player on entrant;
      drop function app.withdraw_event, app.publish_event, app.show_players_of_game, app.show_player_of_entrant,
                    app.show_players, app.revoke_scope, app.grant_scope;
    `);
  }
}
