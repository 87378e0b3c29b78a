import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protectScoped } from './row-security.js';

/**
 * What changed in a bracket, for whoever follows an event. Written by triggers in the transaction that changed it, so that
 * no way of entering a result can forget to tell, and nothing is told that was rolled back.
 */
export class CreateFeed1767225600360 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(`
      -- Of the last entry in the clan's feed. Its row is locked until the end of the transaction that tells, so that entries
      -- become visible in the order of their numbers, and a reader who has seen one has seen all before it.
      alter table clan add column feed_sequence bigint not null default 0;

      create table feed_entry (
        clan_id uuid not null references clan,
        sequence bigint not null,
        scope_id integer not null,
        kind text not null,
        event_id uuid not null,
        match_ids uuid[] not null,
        -- One entry for an event in a transaction, however many matches a result moves.
        told_in xid8 not null default pg_current_xact_id(),
        told_at timestamptz not null default now(),
        constraint feed_entry_pkey primary key (clan_id, sequence),
        constraint feed_entry_scope_id_fkey foreign key (clan_id, scope_id) references scope (clan_id, id) on delete cascade,
        constraint feed_entry_clan_id_told_in_event_id_key unique (clan_id, told_in, event_id),
        constraint feed_entry_kind_check check (kind in ('bracket.changed')),
        constraint feed_entry_sequence_check check (sequence >= 1)
      );
      create index feed_entry_event_id_idx on feed_entry (event_id, sequence);

      create function app.tell_bracket_changed() returns trigger
      language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
      declare
        number bigint;
        scope integer;
      begin
        -- As it is at the end of the transaction, where this runs: it may have been published, or be gone.
        select m.scope_id into scope from public.match m where m.clan_id = new.clan_id and m.id = new.id;
        if not found then
          return null;
        end if;
        -- A bracket of thousands need not be listed: whoever is told of so many reads it anew.
        update public.feed_entry f set match_ids = f.match_ids || new.id
         where f.clan_id = new.clan_id and f.told_in = pg_current_xact_id() and f.event_id = new.event_id
           and cardinality(f.match_ids) < 100 and not f.match_ids @> array[new.id];
        if found or exists (select from public.feed_entry f where f.clan_id = new.clan_id
                               and f.told_in = pg_current_xact_id() and f.event_id = new.event_id) then
          return null;
        end if;
        update public.clan c set feed_sequence = c.feed_sequence + 1 where c.id = new.clan_id
          returning c.feed_sequence into number;
        insert into public.feed_entry (clan_id, sequence, scope_id, kind, event_id, match_ids)
          values (new.clan_id, number, scope, 'bracket.changed', new.event_id, array[new.id]);
        -- Who was away for longer, and missed more, reads the bracket instead.
        delete from public.feed_entry f
         where f.clan_id = new.clan_id and f.told_at < now() - interval '7 days' and f.sequence <= number - 1000;
        perform pg_notify('roundbook_feed', new.clan_id::text);
        return null;
      end $body$;
      revoke execute on all functions in schema app from public;

      -- At the end of the transaction: the clan's row is then locked last and briefly, whatever else was locked before.
      create constraint trigger match_added after insert on match deferrable initially deferred
        for each row execute function app.tell_bracket_changed();
      create constraint trigger match_changed after update on match deferrable initially deferred
        for each row when (
          (old.home_entrant_id, old.away_entrant_id, old.winner_entrant_id, old.home_wins, old.away_wins, old.status)
            is distinct from
          (new.home_entrant_id, new.away_entrant_id, new.winner_entrant_id, new.home_wins, new.away_wins, new.status))
        execute function app.tell_bracket_changed();
    `);
    await db.query(protectScoped('feed_entry', ['select']));
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop trigger match_added on match;
      drop trigger match_changed on match;
      drop function app.tell_bracket_changed;
      drop table feed_entry;
      alter table clan drop column feed_sequence;
    `);
  }
}
