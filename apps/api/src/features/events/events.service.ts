import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { stageRoundName } from '#domain/bracket/round-name.js';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page } from '../../common/page.dto.js';
import { ApiError } from '../../common/problems.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { PathStep } from '../../rendering/report-path.js';
import type { Credential } from '../access/credential.js';
import { AdoptionRepository } from './adoption.repository.js';
import {
  EventInput,
  type BracketResponse,
  type EventPage,
  type EventResponse,
  type EventsQuery,
} from './events.dto.js';
import { pathSteps } from './path-steps.js';
import { EventsRepository, type EventRow, type MatchRow } from './events.repository.js';

/** The match that a player has to play next, and who waits there. */
export interface NextMatch {
  readonly round: number;
  readonly roundName: string;
  /** Null while the match that decides it is open. */
  readonly opponentId: string | null;
  /** Handles of those who may still become the opponent; empty once it is known. */
  readonly candidates: readonly string[];
}

@Injectable()
export class EventsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: EventsRepository,
    private readonly adoption: AdoptionRepository,
  ) {}

  list(credential: Credential, { after, limit, status, own }: EventsQuery): Promise<EventPage> {
    const filter = { after: after ?? null, status: status ?? null, own: own ?? null };
    return this.transactions.run(credential, 'glance', async (db) =>
      page(await this.repository.list(db, filter, limit + 1), limit, (event) => event.id),
    );
  }

  read(credential: Credential, eventId: string): Promise<EventResponse> {
    return this.transactions.run(credential, 'glance', (db) => this.require(db, eventId));
  }

  create(credential: Credential, creation: Creation, input: EventInput): Promise<EventResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const id = uuidv7();
      await this.repository.insert(db, id, input);
      return this.require(db, id);
    });
  }

  change(credential: Credential, eventId: string, change: Change): Promise<EventResponse> {
    return this.resources.change(credential, change, this.kept(eventId));
  }

  remove(credential: Credential, eventId: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(eventId));
  }

  /** An event of one's own, with players, entrants and matches, from one that another clan published. */
  adopt(credential: Credential, creation: Creation, sourceId: string): Promise<EventResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const source = await this.require(db, sourceId);
      if (source.own) throw new ApiError('resource.taken', 'this event is yours already');
      const copy = await this.adoption.ownCopy(db, sourceId);
      if (copy !== null) throw new ApiError('resource.taken', `you adopted this event already, as ${copy}`);
      const taken = await this.adoption.referencesLike(db, source.reference);
      const eventId = uuidv7();
      await this.adoption.copy(db, { sourceId, eventId, reference: freeReference(source.reference, taken) });
      return this.require(db, eventId);
    });
  }

  bracket(credential: Credential, eventId: string): Promise<BracketResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      const event = await this.require(db, eventId);
      const matches = await this.repository.matches(db, eventId);
      return {
        event,
        matches: matches.map((match) => ({ roundName: stageRoundName(match, matches), ...match })),
      };
    });
  }

  find(db: ClanDatabase, eventId: string): Promise<EventRow | null> {
    return this.repository.find(db, eventId);
  }

  async require(db: ClanDatabase, eventId: string): Promise<EventRow> {
    return found(await this.find(db, eventId), 'event');
  }

  /**
   * The event and what it was adopted from or as, by their ids.
   *
   * @throws ApiError `resource.not_found`
   */
  async recordsOf(db: ClanDatabase, eventId: string): Promise<string[]> {
    const records = await this.repository.recordsOf(db, eventId);
    found(records[0] ?? null, 'event');
    return records;
  }

  named(db: ClanDatabase, eventIds: readonly string[]): Promise<Pick<EventRow, 'id' | 'name' | 'startsOn'>[]> {
    return this.repository.named(db, eventIds);
  }

  async requireOwn(db: ClanDatabase, eventId: string): Promise<EventRow> {
    const event = await this.require(db, eventId);
    if (!event.own) throw new ApiError('resource.not_found', 'no event of yours has this id');
    return event;
  }

  /** The player's way through the event: games outside the bracket, then its rounds up to the one to be played. */
  async path(db: ClanDatabase, eventId: string, playerId: string): Promise<PathStep[]> {
    const matches = await this.repository.matches(db, eventId);
    return pathSteps(await this.repository.path(db, eventId, playerId), matches);
  }

  /** The player's first match that is still to be played, or null when the event has none for the player. */
  async nextMatch(db: ClanDatabase, eventId: string, playerId: string): Promise<NextMatch | null> {
    const matches = await this.repository.matches(db, eventId);
    const toPlay = matches.find(
      ({ status, homePlayerId, awayPlayerId }) =>
        (status === 'open' || status === 'ready') && (homePlayerId === playerId || awayPlayerId === playerId),
    );
    if (toPlay === undefined) return null;
    const opponentId = toPlay.homePlayerId === playerId ? toPlay.awayPlayerId : toPlay.homePlayerId;
    return {
      round: toPlay.round,
      roundName: stageRoundName(toPlay, matches),
      opponentId,
      candidates: opponentId === null ? candidates(matches, toPlay, playerId) : [],
    };
  }

  private kept(id: string): Changeable<EventResponse, EventInput> & Removable<EventResponse> {
    return {
      kind: 'event',
      id,
      input: EventInput,
      lock: (db) => this.repository.lockOwn(db, id),
      inputOf: (row) => without(row, 'id', 'sourceId', 'own'),
      write: async (db, input) => {
        await this.requireGradesInside(db, id, input);
        await this.repository.update(db, id, input);
      },
      read: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    };
  }

  private async requireGradesInside(db: ClanDatabase, eventId: string, { gradeScale }: EventInput): Promise<void> {
    const outside = await this.repository.gradesOutside(db, eventId, gradeScale ?? []);
    if (outside.length === 0) return;
    throw new ApiError('resource.in_use', 'entrants have grades that the new scale does not know', {
      errors: outside.map((found) => ({ field: 'gradeScale', found, expected: 'to be on the scale' })),
    });
  }
}

function freeReference(wanted: string, taken: readonly string[]): string {
  for (let copy = 1; ; copy += 1) {
    const reference = copy === 1 ? wanted : `${wanted.slice(0, 70)}-${copy}`;
    if (!taken.includes(reference)) return reference;
  }
}

/** Who may still come out of the matches that feed a match, the player asked for left out. */
function candidates(matches: readonly MatchRow[], fed: MatchRow, playerId: string): string[] {
  return matches
    .filter(
      ({ stage, round, position }) =>
        stage === fed.stage && round === fed.round - 1 && Math.ceil(position / 2) === fed.position,
    )
    .filter(({ homePlayerId, awayPlayerId }) => homePlayerId !== playerId && awayPlayerId !== playerId)
    .flatMap(({ home, away }) => [home, away])
    .filter((handle) => handle !== null);
}
