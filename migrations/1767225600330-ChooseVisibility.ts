import type { MigrationInterface, QueryRunner } from 'typeorm';
import { AddPublishing1767225600007 } from './1767225600007-AddPublishing.js';

/**
 * Each event, game and player record is the clan's alone, shared with named clans, or public. Whoever chose that has a
 * scope for it (`root_id`), so that sharing and withdrawing change readers and no rows; a player's record goes along with
 * whatever shows the player, to exactly the readers of that.
 */
export class ChooseVisibility1767225600330 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await dropPublishing(db);
    await db.query(`
      -- The event, game or player that the scope was made for. No foreign key: there are three tables of them.
      alter table scope add column root_id uuid,
        drop constraint scope_kind_check,
        -- 'joint': of a player whom several clans must be able to read, each for another reason.
        add constraint scope_kind_check check (kind in ('private', 'event', 'share', 'person', 'joint')),
        add constraint scope_root_id_check check (root_id is null or kind in ('event', 'share', 'joint'));
      update scope s set root_id = e.id from event e where e.clan_id = s.clan_id and e.scope_id = s.id and s.kind = 'event';
      create unique index scope_clan_id_root_id_key on scope (clan_id, root_id, (kind = 'joint')) where root_id is not null;
      revoke insert on scope from roundbook_service;
      grant insert (clan_id, kind) on scope to roundbook_service;

      -- Whether the reader may show it on by a share link.
      alter table scope_reader add column may_reshare boolean not null default false;
    `);
    await db.query(PLAYERS_GO_ALONG);
    await db.query(CHOOSING);
    await db.query(`
      revoke execute on all functions in schema app from public;
      grant execute on function app.set_visibility, app.follow_event to roundbook_service;
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop trigger game_place_players on game;
      drop trigger entrant_place_player on entrant;
      drop function app.set_visibility, app.follow_event, app.move_game, app.place_players_of_game,
                    app.place_player_of_entrant, app.place_players;
      alter table scope_reader drop column may_reshare;
      revoke insert (clan_id, kind) on scope from roundbook_service;
      grant insert on scope to roundbook_service;
      update player p set scope_id = s.id from scope s, scope joint
       where joint.id = p.scope_id and joint.kind = 'joint' and s.clan_id = p.clan_id and s.kind = 'private';
      delete from scope where kind = 'joint';
      drop index scope_clan_id_root_id_key;
      alter table scope drop constraint scope_root_id_check, drop constraint scope_kind_check, drop column root_id,
        add constraint scope_kind_check check (kind in ('private', 'event', 'share', 'person'));
    `);
    await new AddPublishing1767225600007().up(db);
  }
}

function dropPublishing(db: QueryRunner): Promise<void> {
  return new AddPublishing1767225600007().down(db);
}

const PLAYERS_GO_ALONG = `
  -- Puts each player's record where everybody reads it who reads an entrant or a game of the player, or whom it was shown
  -- to itself, and nobody else.
  create function app.place_players(clan_id uuid, player_ids uuid[]) returns void
  language plpgsql set search_path = pg_catalog, pg_temp as $body$
  declare
    p record;
    needs integer[];
    target integer;
  begin
    for p in
      select r.id, r.scope_id, s.kind from public.player r join public.scope s on s.id = r.scope_id
       where r.clan_id = place_players.clan_id and r.id = any (player_ids) order by r.id
    loop
      select array_agg(n.scope_id) into needs from (
        select e.scope_id from public.entrant e where e.clan_id = place_players.clan_id and e.player_id = p.id
        union select g.scope_id from public.game g where g.clan_id = place_players.clan_id and g.home_player_id = p.id
        union select g.scope_id from public.game g where g.clan_id = place_players.clan_id and g.away_player_id = p.id
        union select s.id from public.scope s
               where s.clan_id = place_players.clan_id and s.root_id = p.id and s.kind = 'share') n
       where exists (select from public.scope_reader r where r.scope_id = n.scope_id);
      target := null;
      if needs is null then
        select case when p.kind = 'person' then p.scope_id else s.id end into target
          from public.scope s where s.clan_id = place_players.clan_id and s.kind = 'private';
      else
        -- A public one, else one that every reader of the others reads; the present one first, so that little moves.
        select n into target from unnest(needs) n where app.is_public(n) order by n <> p.scope_id, n limit 1;
        if target is null then
          select n into target from unnest(needs) n
           where not exists (
             select from public.scope_reader r where r.scope_id = any (needs)
                and not exists (select from public.scope_reader m where m.scope_id = n and m.clan_id = r.clan_id))
           order by n <> p.scope_id, n limit 1;
        end if;
        if target is null then
          select s.id into target from public.scope s
           where s.clan_id = place_players.clan_id and s.root_id = p.id and s.kind = 'joint';
          if target is null then
            insert into public.scope (clan_id, kind, root_id) values (place_players.clan_id, 'joint', p.id)
            returning id into target;
          end if;
          delete from public.scope_reader r where r.scope_id = target;
          insert into public.scope_reader (scope_id, clan_id, may_reshare)
            select target, r.clan_id, bool_and(r.may_reshare) from public.scope_reader r
             where r.scope_id = any (needs) group by r.clan_id;
        end if;
      end if;
      delete from public.scope_reader r using public.scope s
       where r.scope_id = s.id and s.clan_id = place_players.clan_id and s.root_id = p.id and s.kind = 'joint'
         and s.id <> target;
      update public.player r set scope_id = target
       where r.clan_id = place_players.clan_id and r.id = p.id and r.scope_id <> target;
    end loop;
  end $body$;

  create function app.place_player_of_entrant() returns trigger
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  begin
    if tg_op <> 'INSERT' then
      perform app.place_players(old.clan_id, array[old.player_id]);
    end if;
    -- A new one can only show more; whom everybody sees already needs no look.
    if tg_op <> 'DELETE' and not exists (
      select from public.player p where p.clan_id = new.clan_id and p.id = new.player_id and app.is_public(p.scope_id)) then
      perform app.place_players(new.clan_id, array[new.player_id]);
    end if;
    return null;
  end $body$;
  create trigger entrant_place_player after insert or delete or update of player_id, scope_id on entrant
    for each row execute function app.place_player_of_entrant();

  create function app.place_players_of_game() returns trigger
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  begin
    if tg_op <> 'INSERT' then
      perform app.place_players(old.clan_id, array[old.home_player_id, old.away_player_id]);
    end if;
    if tg_op <> 'DELETE' then
      perform app.place_players(new.clan_id, array(
        select p.id from public.player p where p.clan_id = new.clan_id
           and p.id in (new.home_player_id, new.away_player_id) and not app.is_public(p.scope_id)));
    end if;
    return null;
  end $body$;
  create trigger game_place_players after insert or delete or update of home_player_id, away_player_id, scope_id on game
    for each row execute function app.place_players_of_game();`;

const CHOOSING = `
  -- With its contest, unless that has another record of this clan; film, charts and plays follow by their foreign keys.
  create function app.move_game(clan_id uuid, game_id uuid, to_scope integer) returns void
  language plpgsql set search_path = pg_catalog, pg_temp as $body$
  declare
    contest uuid;
  begin
    update public.game g set scope_id = to_scope
     where g.clan_id = move_game.clan_id and g.id = game_id and g.scope_id <> to_scope
    returning g.contest_id into contest;
    update public.contest c set scope_id = to_scope
     where c.clan_id = move_game.clan_id and c.id = contest
       and not exists (select from public.game o
                        where o.clan_id = move_game.clan_id and o.contest_id = contest and o.id <> game_id);
  end $body$;

  -- Who reads an own event, game or player from the next statement of anybody on: everyone, these clans, or with neither
  -- this clan alone. With an event go its entrants, matches, and those of its games that were as visible as it was; with a
  -- game its film, charts and plays. Own calls, menu, reports, notes and aliases stay where they are.
  create function app.set_visibility(kind text, root_id uuid, everyone boolean, clan_ids uuid[], resharing_ids uuid[])
  returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    clan uuid := app.clan();
    held integer;
    own integer;
    shown boolean := everyone or cardinality(clan_ids) > 0;
    players uuid[];
  begin
    perform app.require_right('manage');
    if kind not in ('event', 'game', 'player') then
      raise exception 'only events, games and players are shown' using errcode = 'RB004';
    end if;
    execute format('select scope_id from public.%I where clan_id = $1 and id = $2 for no key update', kind)
       into held using clan, set_visibility.root_id;
    if held is null or not held = any (app.own_scopes()) then
      raise exception 'no % of this clan has this id', kind using errcode = 'RB004';
    end if;
    select s.id into own from public.scope s
     where s.clan_id = clan and s.root_id = set_visibility.root_id and s.kind <> 'joint';
    -- A game that was kept back has a scope of its own too, so that showing its event later does not show the game.
    if own is null and (shown or kind = 'game') then
      insert into public.scope (clan_id, kind, root_id)
      values (clan, case set_visibility.kind when 'event' then 'event' else 'share' end, set_visibility.root_id)
      returning id into own;
    end if;
    delete from public.scope_reader r where r.scope_id = own;
    insert into public.scope_reader (scope_id, clan_id, may_reshare)
      select own, null, true where everyone
      union select own, c, c = any (resharing_ids) from unnest(clan_ids) c where not everyone;

    if kind = 'event' then
      if shown then
        -- Entrants and matches follow by their foreign keys.
        update public.event e set scope_id = own where e.clan_id = clan and e.id = set_visibility.root_id and held <> own;
        perform app.move_game(clan, g.id, own) from public.game g
          where g.clan_id = clan and g.event_id = set_visibility.root_id and g.scope_id = held;
      end if;
      select array_agg(n.player_id) into players from (
        select n.player_id from public.entrant n where n.clan_id = clan and n.event_id = set_visibility.root_id
        union select unnest(array[g.home_player_id, g.away_player_id]) from public.game g
          where g.clan_id = clan and g.event_id = set_visibility.root_id) n;
    elsif kind = 'game' then
      perform app.move_game(clan, set_visibility.root_id, own);
      select array[g.home_player_id, g.away_player_id] into players from public.game g
       where g.clan_id = clan and g.id = set_visibility.root_id;
    else
      players := array[set_visibility.root_id];
    end if;
    perform app.place_players(clan, players);
    perform app.raise_scope_revision(array_remove(array[held, own], null));
  end $body$;

  -- A game is read by whoever reads its event again.
  create function app.follow_event(game_id uuid) returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  declare
    clan uuid := app.clan();
    held integer;
    of_event integer;
  begin
    perform app.require_right('manage');
    select g.scope_id, e.scope_id into held, of_event
      from public.game g join public.event e on e.clan_id = g.clan_id and e.id = g.event_id
     where g.clan_id = clan and g.id = game_id for no key update of g;
    if not found then
      raise exception 'no game of an event of this clan has this id' using errcode = 'RB004';
    end if;
    delete from public.scope_reader r using public.scope s
     where r.scope_id = s.id and s.clan_id = clan and s.root_id = game_id;
    perform app.move_game(clan, game_id, of_event);
    perform app.place_players(clan, array[g.home_player_id, g.away_player_id])
       from public.game g where g.clan_id = clan and g.id = game_id;
    perform app.raise_scope_revision(array[held, of_event]);
  end $body$;`;
