import { Injectable } from '@nestjs/common';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { ReportFilm } from '../../rendering/report-film.js';
import type { ReportNames } from '../../rendering/report-names.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import { reportFilm } from './report-film-lookup.js';
import { RoundReportsRepository } from './round-reports.repository.js';

/** Ids that a page names. */
export interface NamedIds {
  /** Identities. */
  readonly players: readonly string[];
  readonly events: readonly string[];
  readonly games: readonly string[];
  readonly charts: readonly string[];
}

/** What ids stand for, and where plays are on film, looked up now and under the reader's rights. */
@Injectable()
export class FilmNamesService {
  constructor(
    private readonly repository: RoundReportsRepository,
    private readonly events: EventsService,
    private readonly players: PlayersService,
  ) {}

  async of(db: ClanDatabase, ids: NamedIds): Promise<{ readonly names: ReportNames; readonly film: ReportFilm }> {
    const players = await this.players.handles(db, ids.players);
    const events = new Map((await this.events.named(db, ids.events)).map(({ id, name }) => [id, name]));
    const games = new Map((await this.repository.games(db, ids.games)).map(({ id, name }) => [id, name]));
    const charts = await this.repository.charts(db, ids.charts);
    const film = reportFilm(charts, await this.repository.playSeconds(db, ids.charts));
    return {
      film,
      names: {
        player: (id) => players.get(id) ?? null,
        event: (id) => events.get(id) ?? null,
        game: (id) => games.get(id) ?? null,
        video: (id) => film.chart(id)?.video ?? null,
        coachingPoint: () => null,
      },
    };
  }
}
