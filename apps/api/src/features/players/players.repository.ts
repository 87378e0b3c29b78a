import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';

export interface PlayerRow {
  readonly id: string;
  readonly handle: string;
  /** The record that this one was linked to as the same player, else its own id. */
  readonly identity: string;
}

export interface ListedPlayer extends PlayerRow {
  readonly normalisedHandle: string;
}

@Injectable()
export class PlayersRepository {
  /** Every record that the reader may see of the player whom this id belongs to, the reader's own first. */
  sameAs(db: ClanDatabase, playerId: string): Promise<PlayerRow[]> {
    return db.query<PlayerRow>(
      `with asked as (select coalesce(linked_player_id, id) as identity from player where id = $2
                       order by clan_id <> $1 limit 1)
       select p.id, p.handle, coalesce(p.linked_player_id, p.id) as identity
         from player p, asked
        where p.id = asked.identity or p.linked_player_id = asked.identity
        order by p.clan_id <> $1, p.id`,
      [db.clanId, playerId],
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

  /** The clan's own players by handle, after the given one. */
  list(db: ClanDatabase, after: string, limit: number): Promise<ListedPlayer[]> {
    return db.query<ListedPlayer>(
      `select id, handle, coalesce(linked_player_id, id) as identity, normalised_handle as "normalisedHandle"
         from player where clan_id = $1 and normalised_handle > $2 order by normalised_handle limit $3`,
      [db.clanId, after, limit],
    );
  }
}
