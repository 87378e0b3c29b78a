import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { MatchUpOverrideInput, MatchUpOverrideResponse } from './match-up-overrides.dto.js';

const OVERRIDE = `
  select id, player_id as "playerId", opponent_player_id as "opponentId", win_probability as "winProbability", reason
    from match_up_override`;

/** By identities of players, as odds need them. */
export interface OverriddenMatchUp {
  readonly playerId: string;
  readonly opponentId: string;
  readonly winProbability: number;
}

@Injectable()
export class MatchUpOverridesRepository {
  list(db: ClanDatabase, after: string | null, limit: number): Promise<MatchUpOverrideResponse[]> {
    return db.query<MatchUpOverrideResponse & Record<string, unknown>>(
      `${OVERRIDE} where clan_id = $1 and ($2::uuid is null or id > $2) order by id limit $3`,
      [db.clanId, after, limit],
    );
  }

  async find(db: ClanDatabase, id: string): Promise<MatchUpOverrideResponse | null> {
    const rows = await db.query<MatchUpOverrideResponse & Record<string, unknown>>(
      `${OVERRIDE} where clan_id = $1 and id = $2`,
      [db.clanId, id],
    );
    return rows[0] ?? null;
  }

  async lockOwn(db: ClanDatabase, id: string): Promise<MatchUpOverrideResponse | null> {
    const rows = await db.query<MatchUpOverrideResponse & Record<string, unknown>>(
      `${OVERRIDE} where clan_id = $1 and id = $2 for no key update`,
      [db.clanId, id],
    );
    return rows[0] ?? null;
  }

  async insert(db: ClanDatabase, id: string, input: MatchUpOverrideInput): Promise<void> {
    await db.query(
      `insert into match_up_override (clan_id, id, scope_id, player_id, opponent_player_id, win_probability, reason)
       select $1, $2, s.id, $3, $4, $5, $6 from scope s where s.clan_id = $1 and s.kind = 'private'`,
      [db.clanId, id, input.playerId, input.opponentId, input.winProbability, input.reason ?? null],
    );
  }

  async update(db: ClanDatabase, id: string, input: MatchUpOverrideInput): Promise<void> {
    await db.query(
      `update match_up_override set player_id = $3, opponent_player_id = $4, win_probability = $5, reason = $6
        where clan_id = $1 and id = $2`,
      [db.clanId, id, input.playerId, input.opponentId, input.winProbability, input.reason ?? null],
    );
  }

  async remove(db: ClanDatabase, id: string): Promise<void> {
    await db.query(`delete from match_up_override where clan_id = $1 and id = $2`, [db.clanId, id]);
  }

  /** What the clan itself thinks of match-ups; a published event takes nobody's opinion along. */
  ofClan(db: ClanDatabase): Promise<OverriddenMatchUp[]> {
    return db.query<OverriddenMatchUp & Record<string, unknown>>(
      `select coalesce(p.linked_player_id, p.id) as "playerId", coalesce(q.linked_player_id, q.id) as "opponentId",
              o.win_probability as "winProbability"
         from match_up_override o
         join player p on p.clan_id = o.clan_id and p.id = o.player_id
         join player q on q.clan_id = o.clan_id and q.id = o.opponent_player_id
        where o.clan_id = $1 order by o.id`,
      [db.clanId],
    );
  }
}
