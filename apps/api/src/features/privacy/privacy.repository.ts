import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { PlayerExport } from './privacy.dto.js';

const rows = (from: string, order: string): string =>
  `coalesce((select jsonb_agg(to_jsonb(x) - 'clan_id' - 'scope_id' order by ${order}) from ${from}), '[]')`;

@Injectable()
export class PrivacyRepository {
  async erase(db: ClanDatabase, playerId: string, pseudonym: string, removePlays: boolean): Promise<void> {
    await db.query(`select app.erase_player($1, $2, $3)`, [playerId, pseudonym, removePlays]);
  }

  /** Everything of the clan's about a player of its own that the asking member may read; null when it has none of that id. */
  async everything(db: ClanDatabase, playerId: string): Promise<PlayerExport | null> {
    const found = await db.query<PlayerExport & Record<string, unknown>>(
      `select to_jsonb(p) - 'clan_id' - 'scope_id' as player,
              ${rows('player_alias x where x.clan_id = $1 and x.player_id = $2', 'x.id')} as aliases,
              ${rows('entrant x where x.clan_id = $1 and x.player_id = $2', 'x.id')} as entrants,
              ${rows('game x where x.clan_id = $1 and $2 in (x.home_player_id, x.away_player_id)', 'x.id')} as games,
              ${rows(
                `game_video x where x.clan_id = $1 and x.game_id in (
                        select g.id from game g where g.clan_id = $1 and $2 in (g.home_player_id, g.away_player_id))`,
                'x.id',
              )}
                as films,
              ${rows(
                'play x where x.clan_id = $1 and $2 in (x.offense_player_id, x.defense_player_id)',
                'x.chart_id, x.play_number',
              )} as plays,
              ${rows('coaching_point x where x.clan_id = $1 and x.player_id = $2', 'x.id')} as "coachingPoints",
              ${rows('round_report x where x.clan_id = $1 and $2 in (x.opponent_player_id, x.player_id)', 'x.id')}
                as "roundReports",
              ${rows('audit_entry x where x.clan_id = $1 and x.subject_id = $2', 'x.id')} as audit
         from player p where p.clan_id = $1 and p.id = $2`,
      [db.clanId, playerId],
    );
    return found[0] ?? null;
  }
}
