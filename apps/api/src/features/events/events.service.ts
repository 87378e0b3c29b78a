import { Injectable } from '@nestjs/common';
import { roundName } from '#domain/bracket/round-name.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { ApiError } from '../../common/problems.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { PathStep } from '../../rendering/report-path.js';
import type { Credential } from '../access/credential.js';
import type { BracketResponse, EventPage } from './events.dto.js';
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
    private readonly repository: EventsRepository,
  ) {}

  list(credential: Credential, { after, limit }: IdPageQuery): Promise<EventPage> {
    return this.transactions.run(credential, 'read', async (db) =>
      page(await this.repository.list(db, after ?? null, limit + 1), limit, (event) => event.id),
    );
  }

  bracket(credential: Credential, eventId: string): Promise<BracketResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      const event = await this.require(db, eventId);
      const matches = await this.repository.matches(db, eventId);
      const rounds = roundsOf(matches);
      return {
        event,
        matches: matches.map((match) => ({ ...match, roundName: roundName(match.round, rounds) })),
      };
    });
  }

  publish(credential: Credential, eventId: string): Promise<void> {
    return this.transactions.run(credential, 'write', async (db) => {
      await this.requireOwn(db, eventId);
      await this.repository.publish(db, eventId);
    });
  }

  withdraw(credential: Credential, eventId: string): Promise<void> {
    return this.transactions.run(credential, 'write', async (db) => {
      await this.requireOwn(db, eventId);
      await this.repository.withdraw(db, eventId);
    });
  }

  private async requireOwn(db: ClanDatabase, eventId: string): Promise<void> {
    const event = await this.require(db, eventId);
    if (!event.own) throw new ApiError('resource.not_found', 'no event of yours has this id');
  }

  find(db: ClanDatabase, eventId: string): Promise<EventRow | null> {
    return this.repository.find(db, eventId);
  }

  async require(db: ClanDatabase, eventId: string): Promise<EventRow> {
    const event = await this.find(db, eventId);
    if (event === null) throw new ApiError('resource.not_found', 'no event has this id');
    return event;
  }

  /** The player's way through the event: games outside the bracket, then its rounds up to the one to be played. */
  async path(db: ClanDatabase, eventId: string, playerId: string): Promise<PathStep[]> {
    const rounds = roundsOf(await this.repository.matches(db, eventId));
    return pathSteps(await this.repository.path(db, eventId, playerId), rounds);
  }

  /** The player's first match that is still to be played, or null when the event has none for the player. */
  async nextMatch(db: ClanDatabase, eventId: string, playerId: string): Promise<NextMatch | null> {
    const matches = await this.repository.matches(db, eventId);
    const rounds = roundsOf(matches);
    const toPlay = matches.find(
      ({ status, homePlayerId, awayPlayerId }) =>
        (status === 'open' || status === 'ready') && (homePlayerId === playerId || awayPlayerId === playerId),
    );
    if (toPlay === undefined) return null;
    const opponentId = toPlay.homePlayerId === playerId ? toPlay.awayPlayerId : toPlay.homePlayerId;
    return {
      round: toPlay.round,
      roundName: roundName(toPlay.round, rounds),
      opponentId,
      candidates: opponentId === null ? candidates(matches, toPlay, playerId) : [],
    };
  }
}

function roundsOf(matches: readonly MatchRow[]): number {
  return Math.max(1, ...matches.map((match) => match.round));
}

/** Who may still come out of the matches that feed a match, the player asked for left out. */
function candidates(matches: readonly MatchRow[], fed: MatchRow, playerId: string): string[] {
  return matches
    .filter(({ round, position }) => round === fed.round - 1 && Math.ceil(position / 2) === fed.position)
    .filter(({ homePlayerId, awayPlayerId }) => homePlayerId !== playerId && awayPlayerId !== playerId)
    .flatMap(({ home, away }) => [home, away])
    .filter((handle) => handle !== null);
}
