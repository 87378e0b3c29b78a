import { Injectable } from '@nestjs/common';
import { normaliseTerm } from '#domain/charting/normalise-term.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { PlayerInput, PlayerResponse } from './players.dto.js';

export interface PlayerRow {
  readonly id: string;
  readonly handle: string;
  /** The record that this one was linked to as the same player, else its own id. */
  readonly identity: string;
}

/** One of the records of a player who was asked for. */
export interface SameRow extends PlayerRow {
  /** The id that was asked for. */
  readonly asked: string;
}

export interface ListedPlayer extends PlayerResponse {
  readonly normalisedHandle: string;
}

/** Aliases are asked of the reader's clan alone: what others call a player is theirs. */
const PLAYER = `
  p.id, p.handle,
  coalesce((select jsonb_agg(a.alias order by a.normalised_alias) from player_alias a
             where a.clan_id = p.clan_id and a.player_id = p.id and p.clan_id = $1), '[]') as aliases,
  p.linked_player_id as "linkedPlayerId", p.link_certain as "linkCertain", p.source_id as "sourceId",
  p.clan_id = $1 as own`;

@Injectable()
export class PlayersRepository {
  /** Every record that the reader may see of the players whom these ids belong to, the reader's own first. */
  sameAs(db: ClanDatabase, playerIds: readonly string[]): Promise<SameRow[]> {
    return db.query<SameRow>(
      `with asked as (select distinct on (id) id, coalesce(linked_player_id, id) as identity from player
                       where id = any($2::uuid[]) order by id, clan_id <> $1)
       select asked.id as asked, p.id, p.handle, asked.identity
         from player p, asked
        where p.id = asked.identity or p.linked_player_id = asked.identity
        order by p.clan_id <> $1, p.id`,
      [db.clanId, playerIds],
    );
  }

  /** The same of one player with the archive's revision (`ChartsRepository.archiveRevision`). */
  inArchive(db: ClanDatabase, playerId: string): Promise<(PlayerRow & { readonly archive: string })[]> {
    return db.queryByKey<PlayerRow & { readonly archive: string }>(
      'select id, handle, identity, archive from app.player_by_key($1, $2)',
      [playerId],
    );
  }

  /** Handles by identity, in the reader's own words where the clan has a record of the player. */
  async handles(db: ClanDatabase, identities: readonly string[]): Promise<ReadonlyMap<string, string>> {
    const rows = await db.query<PlayerRow>(
      `select distinct on (coalesce(linked_player_id, id))
              id, handle, coalesce(linked_player_id, id) as identity
         from player
        where id = any($2::uuid[]) or linked_player_id = any($2::uuid[])
        order by coalesce(linked_player_id, id), clan_id <> $1, id`,
      [db.clanId, identities],
    );
    return new Map(rows.map(({ identity, handle }) => [identity, handle]));
  }

  /** The clan's own players by handle, after the given one; of one handle or alias where asked for. */
  list(
    db: ClanDatabase,
    { after, name }: { readonly after: string; readonly name: string | null },
    limit: number,
  ): Promise<ListedPlayer[]> {
    return db.query<ListedPlayer>(
      `select ${PLAYER}, p.normalised_handle as "normalisedHandle"
         from player p
        where p.clan_id = $1 and p.normalised_handle > $2
          and ($3::text is null or p.normalised_handle = $3
               or p.id in (select a.player_id from player_alias a where a.clan_id = $1 and a.normalised_alias = $3))
        order by p.normalised_handle limit $4`,
      [db.clanId, after, name === null ? null : normaliseTerm(name), limit],
    );
  }

  /** The record of that id that the reader may see, the own one first. */
  async find(db: ClanDatabase, playerId: string): Promise<PlayerResponse | null> {
    const rows = await db.query<PlayerResponse>(
      `select ${PLAYER} from player p where p.id = $2 order by p.clan_id <> $1 limit 1`,
      [db.clanId, playerId],
    );
    return rows[0] ?? null;
  }

  async lockOwn(db: ClanDatabase, playerId: string): Promise<PlayerResponse | null> {
    const rows = await db.query<PlayerResponse>(
      `select ${PLAYER} from player p where p.clan_id = $1 and p.id = $2 for no key update of p`,
      [db.clanId, playerId],
    );
    return rows[0] ?? null;
  }

  /** Which of these names other players of the clan go by, as handle or as alias. */
  async namesOfOthers(db: ClanDatabase, playerId: string, names: readonly string[]): Promise<string[]> {
    const rows = await db.query<{ name: string }>(
      `select normalised_handle as name from player
        where clan_id = $1 and id <> $2 and normalised_handle = any($3::text[])
       union all
       select normalised_alias from player_alias
        where clan_id = $1 and player_id <> $2 and normalised_alias = any($3::text[])`,
      [db.clanId, playerId, names.map(normaliseTerm)],
    );
    return rows.map(({ name }) => name);
  }

  async insert(db: ClanDatabase, playerId: string, input: PlayerInput, sourceId: string | null): Promise<void> {
    await db.query(
      `insert into player (clan_id, id, scope_id, handle, normalised_handle, linked_player_id, link_certain, source_id)
       select $1, $2, s.id, $3, $4, $5, $6, $7 from scope s where s.clan_id = $1 and s.kind = 'private'`,
      [
        db.clanId,
        playerId,
        input.handle.trim(),
        normaliseTerm(input.handle),
        input.linkedPlayerId ?? null,
        input.linkCertain ?? true,
        sourceId,
      ],
    );
    await this.insertAliases(db, playerId, input.aliases ?? []);
  }

  async update(db: ClanDatabase, playerId: string, input: PlayerInput): Promise<void> {
    await db.query(
      `update player set handle = $3, normalised_handle = $4, linked_player_id = $5, link_certain = $6
        where clan_id = $1 and id = $2`,
      [
        db.clanId,
        playerId,
        input.handle.trim(),
        normaliseTerm(input.handle),
        input.linkedPlayerId ?? null,
        input.linkCertain ?? true,
      ],
    );
    await db.query(`delete from player_alias where clan_id = $1 and player_id = $2`, [db.clanId, playerId]);
    await this.insertAliases(db, playerId, input.aliases ?? []);
  }

  async remove(db: ClanDatabase, playerId: string): Promise<void> {
    await db.query(`delete from player where clan_id = $1 and id = $2`, [db.clanId, playerId]);
  }

  /** Who a record is the same as decides what profiles are made of. */
  async raiseRevision(db: ClanDatabase, playerId: string): Promise<void> {
    await db.query(
      `select app.raise_scope_revision(array(select scope_id from player where clan_id = $1 and id = $2))`,
      [db.clanId, playerId],
    );
  }

  private async insertAliases(db: ClanDatabase, playerId: string, aliases: readonly string[]): Promise<void> {
    if (aliases.length === 0) return;
    await db.query(
      `insert into player_alias (clan_id, id, scope_id, player_id, alias, normalised_alias)
       select $1, gen_random_uuid(), s.id, $2, a.alias, a.normalised
         from unnest($3::text[], $4::text[]) as a (alias, normalised),
              (select id from scope where clan_id = $1 and kind = 'private') s`,
      [db.clanId, playerId, aliases.map((alias) => alias.trim()), aliases.map(normaliseTerm)],
    );
  }
}
