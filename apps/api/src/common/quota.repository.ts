import { Inject, Injectable } from '@nestjs/common';
import { SETTINGS, type Settings } from '../config/settings.js';
import type { ClanDatabase } from '../database/clan-transaction.js';
import { ApiError } from './problems.js';

/** How much one clan may keep, so that none fills the disk of all. */
@Injectable()
export class QuotaRepository {
  constructor(@Inject(SETTINGS) private readonly settings: Settings) {}

  /** @throws ApiError `clan.quota_reached` when there is no room for one more game */
  async requireRoomForGame(db: ClanDatabase): Promise<void> {
    const [row] = await db.query<{ games: number }>(`select count(*)::int as games from game where clan_id = $1`, [
      db.clanId,
    ]);
    this.require(row?.games ?? 0, this.settings.clanGamesMost, 'games');
  }

  /**
   * @param kept - plays that the clan has already
   * @throws ApiError `clan.quota_reached` when there is no room for one more
   */
  requireRoomForPlay(kept: number): void {
    this.require(kept, this.settings.clanPlaysMost, 'plays');
  }

  /** @throws ApiError `clan.quota_reached` when a file would bring more games or plays than there is room for */
  async requireRoomForImport(db: ClanDatabase, games: number, plays: number): Promise<void> {
    const [row] = await db.query<{ games: number; plays: number }>(
      `select (select count(*) from game where clan_id = $1)::int as games,
              (select coalesce(sum(plays), 0) from chart where clan_id = $1)::int as plays`,
      [db.clanId],
    );
    if (games > 0) this.require((row?.games ?? 0) + games - 1, this.settings.clanGamesMost, 'games');
    if (plays > 0) this.require((row?.plays ?? 0) + plays - 1, this.settings.clanPlaysMost, 'plays');
  }

  private require(has: number, most: number, what: string): void {
    if (has >= most) throw new ApiError('clan.quota_reached', `a clan keeps at most ${most} ${what}`);
  }
}
