import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * What stands around one play that is charted by hand. As single statements of the service every table in them asks its
 * policies anew whose it is, which took longer than the work; here it is asked once.
 */
export class ChartPlayByPlay1767225600440 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- A clan's terms, retired and merged ones too, and the starter terms for which it has words of its own, as JSON.
      -- One text, so that whoever has read it before need only compare.
      create function app.clan_words(clan uuid) returns text
      language plpgsql stable set search_path = pg_catalog, pg_temp as $body$
      begin
        return (select coalesce(json_agg(w order by w.id), '[]')::text
          from (select t.id, t.kind, t.code, t.name, t.parent_id as "parentId", t.starter_id as "starterId",
                       array(select s.normalised from public.term_synonym s
                              where s.term_id = t.id and s.clan_id = clan order by 1) as synonyms,
                       true as own, t.retired_at is not null as retired, t.merged_into_id as "mergedIntoId"
                  from public.term t where t.clan_id = clan
                union all
                select t.id, t.kind, t.code, t.name, t.parent_id, t.starter_id, s.words, false, false, null
                  from (select s.term_id, array_agg(s.normalised order by s.normalised) as words
                          from public.term_synonym s where s.clan_id = clan group by s.term_id) s
                  -- Not "is null", of which PostgreSQL expects few before the tables were ever analyzed.
                  join public.term t on t.id = s.term_id and t.clan_id is distinct from clan) w);
      end $body$;

      -- An own chart, locked with its game until the transaction ends; where its next play goes; its packed copy, if that
      -- is of this format and of the plays as they are; and the clan's words. No row where
      -- the clan has no such chart. Volatile, so that what is read behind the lock is what it waited for.
      create function app.open_chart(asked uuid, pack_format integer, out scope_id integer, out game_id uuid,
                                     out home_player_id uuid, out away_player_id uuid, out kind text, out play_number integer,
                                     out order_in_game integer, out charts_of_game integer, out plays_kept integer,
                                     out pack_plays integer, out pack bytea, out words text)
      returns setof record
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        clan uuid := app.clan();
        mine integer[] := app.own_scopes();
        last_removed integer;
        chart_revision integer;
      begin
        select c.scope_id, c.game_id, g.home_player_id, g.away_player_id, c.kind, c.last_removed_number, c.revision
          into scope_id, game_id, home_player_id, away_player_id, kind, last_removed, chart_revision
          from public.chart c join public.game g on g.clan_id = c.clan_id and g.id = c.game_id
         where c.clan_id = clan and c.id = asked and c.scope_id = any (mine) and g.scope_id = any (mine)
           for no key update;
        if not found then return; end if;
        select greatest(last_removed, coalesce(max(p.play_number), 0)) + 1, coalesce(max(p.order_in_game), 0) + 1
          into play_number, order_in_game
          from public.play p where p.clan_id = clan and p.chart_id = asked;
        select count(*) into charts_of_game
          from public.chart c where c.clan_id = clan and c.game_id = open_chart.game_id;
        select coalesce(sum(c.plays), 0) into plays_kept from public.chart c where c.clan_id = clan and c.scope_id = any (mine);
        select k.plays, k.bytes into pack_plays, pack
          from public.chart_pack k
         where k.clan_id = clan and k.chart_id = asked and k.format = pack_format and k.revision = chart_revision;
        words := app.clan_words(clan);
        return next;
      end $body$;

      -- One play more of an own chart: its revision, its packed copy and, last, the revision of its scope, since every
      -- writer of a scope waits for its row.
      create function app.raise_chart(raised uuid, pack_format integer, plays_now integer, pack bytea) returns void
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        clan uuid := app.clan();
        scope integer;
        revision_now integer;
      begin
        update public.chart c set revision = c.revision + 1, plays = plays_now
         where c.clan_id = clan and c.id = raised and c.scope_id = any (app.own_scopes())
        returning c.scope_id, c.revision into scope, revision_now;
        if not found then
          raise exception 'no chart of this clan has this id' using errcode = 'RB004';
        end if;
        update public.chart_pack k
           set format = pack_format, revision = revision_now, plays = plays_now, bytes = pack
         where k.clan_id = clan and k.chart_id = raised;
        update public.scope s set revision = s.revision + 1 where s.id = scope;
      end $body$;
      revoke execute on all functions in schema app from public;
      grant execute on function app.clan_words, app.open_chart, app.raise_chart to roundbook_service;
    `);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query('drop function app.open_chart, app.raise_chart, app.clan_words');
  }
}
