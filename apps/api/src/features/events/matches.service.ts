import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { printed } from '../../common/printed.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from './events.service.js';
import { MatchInput, type MatchPage, type MatchResponse } from './matches.dto.js';
import { MatchesRepository } from './matches.repository.js';

const RESULT = ['winnerEntrantId', 'homeWins', 'awayWins', 'status'] as const;
const PLACE = ['round', 'position', 'homeEntrantId', 'awayEntrantId'] as const;

@Injectable()
export class MatchesService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: MatchesRepository,
    private readonly events: EventsService,
  ) {}

  list(credential: Credential, eventId: string, { after, limit }: IdPageQuery): Promise<MatchPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, eventId);
      return page(await this.repository.list(db, eventId, after ?? null, limit + 1), limit, (match) => match.id);
    });
  }

  read(credential: Credential, eventId: string, matchId: string): Promise<MatchResponse> {
    return this.transactions.run(credential, 'glance', async (db) =>
      found(await this.repository.find(db, eventId, matchId), 'match'),
    );
  }

  create(credential: Credential, creation: Creation, eventId: string, input: MatchInput): Promise<MatchResponse> {
    return this.resources.create(credential, creation, async (db) => {
      await this.events.requireOwn(db, eventId);
      const id = uuidv7();
      await this.repository.insert(db, eventId, id, input);
      return found(await this.repository.find(db, eventId, id), 'match');
    });
  }

  change(credential: Credential, eventId: string, matchId: string, change: Change): Promise<MatchResponse> {
    return this.resources.change(credential, change, this.kept(eventId, matchId));
  }

  remove(credential: Credential, eventId: string, matchId: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(eventId, matchId));
  }

  /** @throws ApiError `resource.not_found` */
  async requireOwn(db: ClanDatabase, eventId: string, matchId: string): Promise<MatchResponse> {
    return found(await this.repository.lockOwn(db, eventId, matchId), 'match', 'of yours ');
  }

  private kept(eventId: string, id: string): Changeable<MatchResponse, MatchInput> & Removable<MatchResponse> {
    return {
      kind: 'match',
      id,
      input: MatchInput,
      lock: (db) => this.repository.lockOwn(db, eventId, id),
      inputOf: (row) => without(row, 'id', 'eventId'),
      write: async (db, input, before) => {
        await this.requireFree(db, eventId, before, input);
        await this.repository.update(db, eventId, id, input);
      },
      read: (db) => this.repository.find(db, eventId, id),
      remove: (db) => this.repository.remove(db, eventId, id),
    };
  }

  /**
   * Where others follow from a match, its result moves players on, which only entering it does, and what it hangs together
   * with them by stays. A match that nothing follows from says what it says.
   *
   * @throws ApiError `match.fixed`
   */
  private async requireFree(
    db: ClanDatabase,
    eventId: string,
    before: MatchResponse,
    input: MatchInput,
  ): Promise<void> {
    const refuse = (fields: readonly (keyof MatchInput)[], expected: string): void => {
      const errors = fields
        .filter((field) => (input[field] ?? null) !== before[field])
        .map((field): FieldProblem => ({ field, found: printed(input[field]), expected }));
      if (errors.length > 0) throw new ApiError('match.fixed', 'that cannot be changed here', { errors });
    };
    const { linked, followed } = await this.repository.ties(db, eventId, before.id);
    if (linked || followed) refuse(RESULT, 'what PUT .../matches/{id}/result made of it');
    if (linked) refuse(PLACE, 'what the bracket says');
    if ((linked || followed) && before.winnerEntrantId !== null) {
      refuse([...PLACE, 'bestOf'], 'no change before the result is taken back');
    }
  }
}
