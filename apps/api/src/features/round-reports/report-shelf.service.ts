import { Injectable } from '@nestjs/common';
import { ANY_VERSION } from '../../common/change.js';
import { page } from '../../common/page.dto.js';
import { Resources } from '../../common/resources.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import type { ReportPage, ReportsQuery } from './report-shelf.dto.js';
import { ReportShelfRepository } from './report-shelf.repository.js';

/** A report by what the reader may know of it: null for a name that is withheld. */
export interface NamedSummary {
  readonly id: string;
  readonly opponent: string | null;
  readonly event: string | null;
  readonly madeAt: string;
}

/** The reports that were made: which there are, and throwing one away. None is ever changed. */
@Injectable()
export class ReportShelfService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: ReportShelfRepository,
    private readonly players: PlayersService,
    private readonly events: EventsService,
  ) {}

  list(credential: Credential, { after, limit, opponentId, eventId }: ReportsQuery): Promise<ReportPage> {
    const filter = { after: after ?? null, opponentId: opponentId ?? null, eventId: eventId ?? null };
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, filter, limit + 1), limit, (report) => report.id),
    );
  }

  newest(credential: Credential, count: number): Promise<NamedSummary[]> {
    return this.transactions.run(credential, 'read', async (db) => {
      const reports = await this.repository.newest(db, count);
      const players = await this.players.handles(
        db,
        reports.map(({ opponentId }) => opponentId),
      );
      const asked = reports.flatMap(({ eventId }) => eventId ?? []);
      const events = new Map((await this.events.named(db, asked)).map(({ id, name }) => [id, name]));
      return reports.map(({ id, opponentId, eventId, madeAt }) => ({
        id,
        opponent: players.get(opponentId) ?? null,
        event: eventId === null ? null : (events.get(eventId) ?? null),
        madeAt,
      }));
    });
  }

  /** What is frozen has no version to compare, so there is nothing to say by If-Match. */
  remove(credential: Credential, id: string): Promise<void> {
    return this.resources.remove(credential, ANY_VERSION, {
      kind: 'round report',
      id,
      lock: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    });
  }
}
