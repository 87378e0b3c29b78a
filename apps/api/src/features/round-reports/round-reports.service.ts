import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { RoundReport } from '#domain/reports/round-report-shape.js';
import type { Creation } from '../../common/creation.js';
import { IdempotencyRepository } from '../../common/idempotency.repository.js';
import { ApiError } from '../../common/problems.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { PageReport } from '../../rendering/page/round-report-page.js';
import type { ReportNames } from '../../rendering/report-names.js';
import type { Credential } from '../access/credential.js';
import { CoachingPointsService } from '../coaching-points/coaching-points.service.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import { NextOpponentsService, type NextUp } from './next-opponents.service.js';
import { ReportMakerService, type ReportDraft } from './report-maker.service.js';
import type { MakeRoundReport } from './round-reports.dto.js';
import { reportFilm } from './report-film-lookup.js';
import { RoundReportsRepository, type ChartRow, type NewRoundReport } from './round-reports.repository.js';

/** A frozen report with what its ids stand for to this reader now. */
export interface NamedReport {
  readonly id: string;
  readonly report: RoundReport;
  readonly names: ReportNames;
}

interface Opponent {
  readonly opponentId: string;
  readonly round: number | null;
  readonly roundName: string | null;
  /** Null where the opponent was named by hand. */
  readonly next: NextUp | null;
}

export type FilmedReport = Omit<PageReport, 'path'>;

@Injectable()
export class RoundReportsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: RoundReportsRepository,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly next: NextOpponentsService,
    private readonly maker: ReportMakerService,
    private readonly points: CoachingPointsService,
    private readonly idempotency: IdempotencyRepository,
  ) {}

  /**
   * Makes the report and freezes it. It is worked out as the archive stood at one moment, and only its keeping writes: its
   * forecast takes seconds, which nobody else should wait for.
   */
  async make(credential: Credential, creation: Creation, wanted: MakeRoundReport): Promise<NamedReport> {
    // First of all, so that whoever may not write is told before the work. Only the id is remembered: the report itself is
    // kept already.
    const known = await this.transactions.run(credential, 'write', (db) =>
      this.idempotency.answer<string>(db, creation),
    );
    return this.read(credential, known ?? (await this.makeNew(credential, creation, wanted)));
  }

  private async makeNew(credential: Credential, creation: Creation, wanted: MakeRoundReport): Promise<string> {
    const { draft, ...row } = await this.transactions.run(credential, 'read', (db) => this.draft(db, wanted));
    const report = await this.maker.finish(draft);
    return this.transactions.run(credential, 'write', (db) =>
      // Of two requests with one key that came together the later finds the earlier's.
      this.idempotency.once(db, creation, async () => {
        await this.repository.insert(db, { ...row, report });
        return row.id;
      }),
    );
  }

  private async draft(
    db: ClanDatabase,
    wanted: MakeRoundReport,
  ): Promise<Omit<NewRoundReport, 'report'> & { readonly draft: ReportDraft }> {
    await this.events.require(db, wanted.eventId);
    const { opponentId, round, roundName, next } = await this.opponent(db, wanted);
    const opponent = await this.players.require(db, opponentId);
    const kept = next === null ? null : await this.next.kept(db, wanted.eventId, next);
    const wish = { eventId: wanted.eventId, round: roundName, next: kept, asOf: wanted.asOf ?? null, habits: true };
    return {
      id: uuidv7(),
      eventId: wanted.eventId,
      round,
      playerId: wanted.playerId ?? null,
      opponentId,
      visibleTo: wanted.visibleTo ?? 'clan',
      draft: await this.maker.draft(db, opponent, wish),
    };
  }

  read(credential: Credential, reportId: string): Promise<NamedReport> {
    return this.transactions.run(credential, 'read', async (db) => {
      const report = await this.require(db, reportId);
      return { id: reportId, report, names: await this.names(db, report) };
    });
  }

  /** The report with where its plays are on film. */
  readFilm(credential: Credential, reportId: string): Promise<FilmedReport> {
    return this.transactions.run(credential, 'read', async (db) => this.filmed(db, await this.require(db, reportId)));
  }

  /** The report with all that its page shows. */
  readPage(credential: Credential, reportId: string): Promise<PageReport> {
    return this.transactions.run(credential, 'read', async (db) => this.paged(db, await this.require(db, reportId)));
  }

  /** What a link shows: the report, with what its ids stand for as far as the clan may show that on. */
  readLinked(tokenHash: Buffer): Promise<NamedReport> {
    return this.transactions.visit(tokenHash, async (db, reportId) => {
      const report = forOutside(await this.require(db, reportId));
      return { id: reportId, report, names: await this.names(db, report) };
    });
  }

  /** The same, with all that its page shows. */
  readLinkedPage(tokenHash: Buffer): Promise<PageReport> {
    return this.transactions.visit(tokenHash, async (db, reportId) =>
      this.paged(db, forOutside(await this.require(db, reportId))),
    );
  }

  private async require(db: ClanDatabase, reportId: string): Promise<RoundReport> {
    const report = await this.repository.find(db, reportId);
    if (report === null) throw new ApiError('resource.not_found', 'no round report has this id');
    return report;
  }

  private async paged(db: ClanDatabase, report: RoundReport): Promise<PageReport> {
    const filmed = await this.filmed(db, report);
    const { eventId, playerId } = report;
    return { ...filmed, path: eventId === null ? [] : await this.events.path(db, eventId, playerId) };
  }

  private async filmed(db: ClanDatabase, report: RoundReport): Promise<FilmedReport> {
    const charts = await this.charts(db, report);
    const seconds = await this.repository.playSeconds(db, chartIds(report));
    return { report, names: await this.names(db, report, charts), film: reportFilm(charts, seconds) };
  }

  private charts(db: ClanDatabase, report: RoundReport): Promise<ChartRow[]> {
    return this.repository.charts(db, chartIds(report));
  }

  private async opponent(db: ClanDatabase, wanted: MakeRoundReport): Promise<Opponent> {
    const { eventId, playerId, opponentId, asOf } = wanted;
    const player = playerId === undefined ? null : await this.players.require(db, playerId);
    if (opponentId !== undefined) {
      // Whoever is next now was not the next on an earlier day.
      const match =
        player === null || asOf !== undefined ? null : await this.events.nextMatch(db, eventId, player.identity);
      return { opponentId, round: match?.round ?? null, roundName: match?.roundName ?? null, next: null };
    }
    if (player === null) throw new ApiError('report.nothing_to_scout', 'name a playerId or an opponentId');
    if (asOf !== undefined) {
      throw new ApiError(
        'report.nothing_to_scout',
        'the bracket says who is next now, not on an earlier day; name an opponentId',
      );
    }
    const next = await this.next.find(db, eventId, player.identity);
    const [first] = next.candidates;
    if (first === undefined) throw new Error('whoever is next has a candidate');
    return { opponentId: first.playerId, round: next.match.round, roundName: next.match.roundName, next };
  }

  /** The report's own event, and those that its habits are followed over. */
  private async eventNames(db: ClanDatabase, report: RoundReport): Promise<ReadonlyMap<string, string>> {
    const ofGames = report.habits?.events.map(({ eventId }) => eventId) ?? [];
    const names = new Map<string, string>();
    for (const id of new Set([report.eventId, ...ofGames])) {
      const event = id === null ? null : await this.events.find(db, id);
      if (event !== null) names.set(event.id, event.name);
    }
    return names;
  }

  /** What the report's ids stand for, looked up now and under the reader's rights. */
  private async names(db: ClanDatabase, report: RoundReport, known?: readonly ChartRow[]): Promise<ReportNames> {
    const gameIds = [...new Set([...report.sample.charts, ...(report.chartNext ?? [])].map(({ gameId }) => gameId))];
    const players = await this.players.handles(db, peopleOf(report));
    const games = lookup(await this.repository.games(db, gameIds));
    const charts = known ?? (await this.charts(db, report));
    const videos = new Map(
      charts.map(({ id, url, offsetSeconds }) => [
        id,
        url === null ? null : { url, offsetSeconds: offsetSeconds ?? 0 },
      ]),
    );
    const events = await this.eventNames(db, report);
    const points = await this.points.versionsOf(db, report.coachingPoints?.map(({ pointId }) => pointId) ?? []);
    return {
      coachingPoint: points,
      player: (id) => players.get(id) ?? null,
      event: (id) => events.get(id) ?? null,
      game: (id) => games.get(id) ?? null,
      video: (id) => videos.get(id) ?? null,
    };
  }
}

/** What the clan tells itself is for no reader outside of it. */
function forOutside(report: RoundReport): RoundReport {
  return without(report, 'coachingPoints');
}

/** Everybody whom the report names. */
function peopleOf({ playerId, next, answers }: RoundReport): string[] {
  const candidates = next?.candidates.map((candidate) => candidate.playerId) ?? [];
  const ahead = next?.ahead.flatMap(({ opponents }) => opponents.map((opponent) => opponent.playerId)) ?? [];
  const met = answers?.calls.flatMap(({ games }) => games.flatMap(({ offense, defense }) => [offense, defense])) ?? [];
  return [...new Set([playerId, ...candidates, ...ahead, ...met.filter((identity) => identity !== null)])];
}

function chartIds({ sample }: RoundReport): string[] {
  return sample.charts.map(({ chartId }) => chartId);
}

function lookup(rows: readonly { readonly id: string; readonly name: string }[]): ReadonlyMap<string, string> {
  return new Map(rows.map(({ id, name }) => [id, name]));
}
