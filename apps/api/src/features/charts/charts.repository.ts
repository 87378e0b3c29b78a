import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';

/** A chart that counts for the reader: the one record of its contest that figures draw on. */
export interface CountingChart {
  /** Whose it is: ids say nothing across clans, since a clan's keys are its own. */
  readonly clanId: string;
  readonly chartId: string;
  readonly revision: number;
  readonly gameId: string;
  /** Identity across clans where one links to another, else the player's own id. */
  readonly homePlayerId: string;
  readonly awayPlayerId: string;
  readonly playedOn: string | null;
  readonly importance: string;
  readonly rulesVersion: string | null;
  readonly eventId: string | null;
  readonly quarterMinutes: number | null;
  /** Whether all downs and quarters were looked at, so that what is next in the chart was next in the game. */
  readonly allSnaps: boolean;
}

/**
 * One counting chart a contest: the reader's own clan before shared before public, then what the charts of one game were
 * reconciled to, then the widest film scope, then the newest. Without that, one contest charted by three clans would count three times and break every interval.
 */
const COUNTING_CHARTS = `
  select distinct on (coalesce(k.linked_contest_id, k.id))
         c.clan_id as "clanId", c.id as "chartId", c.revision, c.game_id as "gameId",
         coalesce(h.linked_player_id, h.id) as "homePlayerId", coalesce(a.linked_player_id, a.id) as "awayPlayerId",
         to_char(g.played_at at time zone 'UTC', 'YYYY-MM-DD') as "playedOn", g.importance,
         g.rules_version as "rulesVersion", g.event_id as "eventId",
         g.quarter_minutes as "quarterMinutes",
         c.film_scope->>'downs' is null and c.film_scope->>'quarters' is null as "allSnaps"
    from game g
    join contest k on k.clan_id = g.clan_id and k.id = g.contest_id
    join chart c on c.clan_id = g.clan_id and c.game_id = g.id and c.kind <> 'own call log'
    join player h on h.clan_id = g.clan_id and h.id = g.home_player_id
    join player a on a.clan_id = g.clan_id and a.id = g.away_player_id`;

const COUNTS_FIRST = `
   order by coalesce(k.linked_contest_id, k.id), c.clan_id <> $1, s.public, c.kind <> 'reconciled',
            c.film_scope_rank, c.charted_at desc nulls last, c.id desc`;

@Injectable()
export class ChartsRepository {
  /** Counting charts of the games that any of these player records played in, the newest game first. */
  async ofPlayers(db: ClanDatabase, playerIds: readonly string[]): Promise<CountingChart[]> {
    const charts = await db.query<CountingChart>(
      `${COUNTING_CHARTS}
         join lateral (select app.is_public(c.scope_id) as public) s on true
        where g.home_player_id = any($2::uuid[]) or g.away_player_id = any($2::uuid[])
       ${COUNTS_FIRST}`,
      [db.clanId, playerIds],
    );
    return newestFirst(charts);
  }

  /** Counting charts of everything that the reader may see. */
  async ofArchive(db: ClanDatabase): Promise<CountingChart[]> {
    const charts = await db.query<CountingChart>(
      `${COUNTING_CHARTS}
         join lateral (select app.is_public(c.scope_id) as public) s on true
       ${COUNTS_FIRST}`,
      [db.clanId],
    );
    return newestFirst(charts);
  }

  /** Revisions of all scopes the reader may see: the archive as seen changes only when this text does. */
  async archiveRevision(db: ClanDatabase): Promise<string> {
    const rows = await db.query<{ revision: string }>(`select app.archive_revision() as revision`, []);
    return rows[0]?.revision ?? '';
  }

  async clanOf(db: ClanDatabase, chartId: string): Promise<string> {
    const rows = await db.query<{ clanId: string }>(
      `select clan_id as "clanId" from chart where id = $1 order by clan_id <> $2 limit 1`,
      [chartId, db.clanId],
    );
    return rows[0]?.clanId ?? db.clanId;
  }

  packs(
    db: ClanDatabase,
    charts: readonly Pick<CountingChart, 'clanId' | 'chartId'>[],
  ): Promise<{ clanId: string; chartId: string; revision: number; bytes: Buffer }[]> {
    return db.query(
      `select p.clan_id as "clanId", p.chart_id as "chartId", p.revision, p.bytes
         from unnest($1::uuid[], $2::uuid[]) c (clan_id, id)
         join chart_pack p on p.clan_id = c.clan_id and p.chart_id = c.id`,
      [charts.map(({ clanId }) => clanId), charts.map(({ chartId }) => chartId)],
    );
  }
}

function newestFirst(charts: CountingChart[]): CountingChart[] {
  return charts.sort((one, other) => {
    const byDate = (other.playedOn ?? '').localeCompare(one.playedOn ?? '');
    return byDate !== 0 ? byDate : one.chartId.localeCompare(other.chartId);
  });
}
