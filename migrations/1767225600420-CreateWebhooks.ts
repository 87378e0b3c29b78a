import type { MigrationInterface, QueryRunner } from 'typeorm';
import { protect } from './row-security.js';

/**
 * Addresses that are told what the feed tells, and the queue of what is still to be told them.
 *
 * Secrets are written by the service and read by nobody but the functions here, which sign in the database: SQL that was
 * injected can have no message signed that is not due anyway.
 */
export class CreateWebhooks1767225600420 implements MigrationInterface {
  async up(db: QueryRunner): Promise<void> {
    await db.query(TABLES);
    const own = `clan_id = (select app.clan()) and (select app.may('manage'))`;
    await db.query(protect('webhook', ['select', 'insert', 'update', 'delete'], { read: own, own }));
    await db.query(protect('webhook_delivery', ['select', 'insert', 'update'], { read: own, own }));
    // Nobody makes one, or turns one on again, in the name of another.
    await db.query(`alter policy webhook_insert on webhook with check (${own} and made_by = (select app.key_id()));`);
    await db.query(SIGNING);
    await db.query(QUEUE);
    await db.query(RIGHTS);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`
      drop trigger feed_entry_told on feed_entry;
      drop function app.settle_delivery, app.next_delivery, app.take_deliveries, app.queue_deliveries, app.may_follow,
                    app.renew_webhook_secret, app.webhook_signature, app.hmac_sha256, app.new_id;
      drop table webhook_delivery, webhook;
    `);
  }
}

const TABLES = `
  create table webhook (
    clan_id uuid not null references clan,
    id uuid not null,
    -- What it is told ends with the right of whoever made it, who has seen the secret.
    made_by uuid not null,
    url text not null,
    -- Whose feed: the own one, or that of whoever published the event. No foreign key, since those stay inside a clan.
    source_clan_id uuid not null,
    -- Null: every event of the clan.
    event_id uuid,
    secret bytea not null,
    secret_since timestamptz not null default now(),
    -- Signs too for a day, so that a receiver can change over without losing anything.
    former_secret bytea,
    created_at timestamptz not null default now(),
    ended_at timestamptz,
    ended_because text,
    -- One message at a time: until then a worker has it, or since then nobody; by which lease.
    free_at timestamptz not null default '-infinity',
    lease uuid,
    constraint webhook_pkey primary key (clan_id, id),
    constraint webhook_made_by_fkey foreign key (clan_id, made_by) references api_key (clan_id, id),
    constraint webhook_url_check check (length(url) between 1 and 2000),
    -- The specification asks for at least 24 bytes; more than a block of SHA-256 would have to be hashed first.
    constraint webhook_secret_check check (length(secret) between 24 and 64 and length(former_secret) between 24 and 64),
    constraint webhook_event_id_check check (event_id is not null or source_clan_id = clan_id),
    constraint webhook_ended_because_check
      check (ended_because in ('turned off', 'receiver gone', 'schedule used up', 'maker without right')),
    constraint webhook_ended_at_check check ((ended_at is null) = (ended_because is null))
  );
  create index webhook_made_by_idx on webhook (clan_id, made_by);
  create index webhook_source_clan_id_idx on webhook (source_clan_id, event_id) where ended_at is null;

  create table webhook_delivery (
    clan_id uuid not null references clan,
    -- The same however often it is sent: receivers know by it what they have already.
    id uuid not null,
    webhook_id uuid not null,
    -- What it tells of; null for a test.
    source_clan_id uuid,
    event_id uuid,
    kind text not null,
    -- As it is signed and sent, byte by byte.
    body text not null,
    state text not null default 'waiting',
    attempts integer not null default 0,
    queued_at timestamptz not null default now(),
    due_at timestamptz not null default now(),
    -- Of the last attempt; no status where no answer came.
    attempted_at timestamptz,
    last_status integer,
    last_problem text,
    constraint webhook_delivery_pkey primary key (clan_id, id),
    constraint webhook_delivery_webhook_id_fkey
      foreign key (clan_id, webhook_id) references webhook (clan_id, id) on delete cascade,
    constraint webhook_delivery_source_check check ((source_clan_id is null) = (event_id is null)),
    constraint webhook_delivery_state_check check (state in ('waiting', 'delivered', 'failed', 'withheld')),
    constraint webhook_delivery_attempts_check check (attempts >= 0)
  );
  create index webhook_delivery_due_at_idx on webhook_delivery (clan_id, webhook_id, due_at) where state = 'waiting';
  create index webhook_delivery_webhook_id_idx on webhook_delivery (clan_id, webhook_id, id);`;

const SIGNING = `
  -- Random, and later ones behind earlier ones (UUID version 7, RFC 9562).
  create function app.new_id() returns uuid
  language sql volatile set search_path = pg_catalog, pg_temp as $body$
    select encode(set_bit(set_bit(overlay(uuid_send(gen_random_uuid()) placing
             substring(int8send(floor(extract(epoch from clock_timestamp()) * 1000)::bigint) from 3) from 1 for 6),
             52, 1), 53, 1), 'hex')::uuid
  $body$;

  -- By its definition (RFC 2104), for keys of at most one block.
  create function app.hmac_sha256(key bytea, message bytea) returns bytea
  language plpgsql immutable set search_path = pg_catalog, pg_temp as $body$
  declare
    padded bytea := key || decode(repeat('00', 64 - length(key)), 'hex');
    inside bytea := padded;
    outside bytea := padded;
  begin
    for at in 0..63 loop
      inside := set_byte(inside, at, get_byte(padded, at) # 54);   -- 0x36
      outside := set_byte(outside, at, get_byte(padded, at) # 92); -- 0x5c
    end loop;
    return sha256(outside || sha256(inside || message));
  end $body$;

  -- Standard Webhooks 1.0.0, "Signature scheme".
  create function app.webhook_signature(secret bytea, id text, seconds bigint, body text) returns text
  language sql immutable set search_path = pg_catalog, pg_temp as $body$
    select 'v1,' || encode(app.hmac_sha256($1, convert_to($2 || '.' || $3 || '.' || $4, 'UTF8')), 'base64')
  $body$;

  create function app.renew_webhook_secret(webhook_id uuid, secret bytea) returns void
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  begin
    perform app.require_right('manage');
    update public.webhook w set former_secret = w.secret, secret = renew_webhook_secret.secret, secret_since = now()
     where w.clan_id = app.clan() and w.id = webhook_id;
  end $body$;`;

const QUEUE = `
  -- Whether a clan may still be told of an event.
  create function app.may_follow(clan_id uuid, source_clan_id uuid, event_id uuid) returns boolean
  language sql stable set search_path = pg_catalog, pg_temp as $body$
    select $1 = $2 or exists (
      select from public.event e join public.scope_reader r on r.scope_id = e.scope_id
       where e.clan_id = $2 and e.id = $3 and (r.clan_id is null or r.clan_id = $1))
  $body$;

  create function app.queue_deliveries() returns trigger
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  begin
    insert into public.webhook_delivery (clan_id, id, webhook_id, source_clan_id, event_id, kind, body)
      select w.clan_id, app.new_id(), w.id, f.clan_id, f.event_id, f.kind,
             json_build_object('type', f.kind, 'timestamp', t.at, 'data', json_build_object('sequence', f.sequence,
               'kind', f.kind, 'at', t.at, 'eventId', f.event_id, 'matchIds', f.match_ids))::text
        from public.feed_entry f
        join public.webhook w on w.source_clan_id = f.clan_id and (w.event_id is null or w.event_id = f.event_id)
        cross join lateral (select to_char(f.told_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as at) t
       where f.clan_id = new.clan_id and f.sequence = new.sequence and w.ended_at is null
         and app.may_follow(w.clan_id, f.clan_id, f.event_id);
    if found then
      perform pg_notify('roundbook_feed', 'deliveries');
    end if;
    return null;
  end $body$;
  -- At the end of the transaction, when the entry has all its matches.
  create constraint trigger feed_entry_told after insert on feed_entry deferrable initially deferred
    for each row execute function app.queue_deliveries();

  -- What is due, signed, one message a webhook. Nobody else is given the same before it is settled or its lease ends; a
  -- worker that died in between leaves it to be sent once more.
  create function app.take_deliveries(moment timestamptz, lease_seconds integer, most integer)
  returns table (clan_id uuid, webhook_id uuid, lease uuid, id uuid, url text, body text, attempts integer,
                 seconds bigint, signature text)
  language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  #variable_conflict use_column
  declare
    hook public.webhook;
    told public.webhook_delivery;
  begin
    for hook in
      select w.* from public.webhook w
       where w.ended_at is null and w.free_at <= moment
         and exists (select from public.webhook_delivery d where d.clan_id = w.clan_id and d.webhook_id = w.id
                        and d.state = 'waiting' and d.due_at <= moment)
       order by w.free_at, w.clan_id, w.id limit most for update of w skip locked
    loop
      if not exists (select from public.api_key k where k.clan_id = hook.clan_id and k.id = hook.made_by
                        and k.revoked_at is null and (k.expires_at is null or k.expires_at > moment)
                        and 'manage' = any (k.rights)) then
        update public.webhook w set ended_at = moment, ended_because = 'maker without right'
         where w.clan_id = hook.clan_id and w.id = hook.id;
        continue;
      end if;
      update public.webhook_delivery d set state = 'withheld'
       where d.clan_id = hook.clan_id and d.webhook_id = hook.id and d.state = 'waiting' and d.due_at <= moment
         and d.event_id is not null and not app.may_follow(d.clan_id, d.source_clan_id, d.event_id);
      update public.webhook_delivery d set attempts = d.attempts + 1, attempted_at = moment
       where d.clan_id = hook.clan_id and d.id = (
         select n.id from public.webhook_delivery n
          where n.clan_id = hook.clan_id and n.webhook_id = hook.id and n.state = 'waiting' and n.due_at <= moment
          order by n.due_at, n.id limit 1)
      returning d.* into told;
      continue when not found;
      clan_id := hook.clan_id;
      webhook_id := hook.id;
      lease := gen_random_uuid();
      update public.webhook w set lease = take_deliveries.lease, free_at = moment + make_interval(secs => lease_seconds)
       where w.clan_id = hook.clan_id and w.id = hook.id;
      id := told.id;
      url := hook.url;
      body := told.body;
      attempts := told.attempts;
      seconds := floor(extract(epoch from moment));
      signature := app.webhook_signature(hook.secret, told.id::text, seconds, body);
      if hook.former_secret is not null and hook.secret_since > moment - interval '1 day' then
        signature := signature || ' ' || app.webhook_signature(hook.former_secret, told.id::text, seconds, body);
      end if;
      return next;
    end loop;
  end $body$;

  -- When a worker has something to do next; null for never.
  create function app.next_delivery() returns timestamptz
  language sql stable security definer set search_path = pg_catalog, pg_temp as $body$
    select min(greatest(d.due_at, w.free_at))
      from public.webhook_delivery d join public.webhook w on w.clan_id = d.clan_id and w.id = d.webhook_id
     where d.state = 'waiting' and w.ended_at is null
  $body$;

  -- What came of an attempt, from whoever holds the lease; a worker whose lease has ended is not heard any more.
  create function app.settle_delivery(clan_id uuid, webhook_id uuid, lease uuid, id uuid, moment timestamptz,
                                      state text, status integer, problem text, due_at timestamptz, ends text)
  returns void language plpgsql security definer set search_path = pg_catalog, pg_temp as $body$
  #variable_conflict use_column
  begin
    update public.webhook w
       set lease = null, free_at = moment, ended_because = coalesce(w.ended_because, ends),
           ended_at = case when ends is null then w.ended_at else coalesce(w.ended_at, moment) end
     where w.clan_id = settle_delivery.clan_id and w.id = settle_delivery.webhook_id
       and w.lease = settle_delivery.lease;
    if not found then return; end if;
    update public.webhook_delivery d
       set state = settle_delivery.state, last_status = settle_delivery.status, last_problem = settle_delivery.problem,
           due_at = coalesce(settle_delivery.due_at, d.due_at)
     where d.clan_id = settle_delivery.clan_id and d.id = settle_delivery.id;
    -- As long as the feed keeps what it told.
    delete from public.webhook_delivery d
     where d.clan_id = settle_delivery.clan_id and d.webhook_id = settle_delivery.webhook_id and d.state <> 'waiting'
       and d.queued_at < moment - interval '7 days';
  end $body$;`;

const RIGHTS = `
  revoke select, insert, update on webhook, webhook_delivery from roundbook_service;
  grant select (clan_id, id, made_by, url, source_clan_id, event_id, secret_since, created_at, ended_at, ended_because),
        insert (clan_id, id, made_by, url, source_clan_id, event_id, secret),
        update (made_by, url, source_clan_id, event_id, ended_at, ended_because)
     on webhook to roundbook_service;
  -- Not what was said in one that is withheld.
  grant select (clan_id, id, webhook_id, event_id, kind, state, attempts, queued_at, due_at, attempted_at, last_status,
                last_problem),
        insert (clan_id, id, webhook_id, kind, body), update (state, attempts, due_at)
     on webhook_delivery to roundbook_service;
  revoke execute on all functions in schema app from public;
  grant execute on function app.renew_webhook_secret, app.take_deliveries, app.next_delivery, app.settle_delivery
     to roundbook_service;`;
