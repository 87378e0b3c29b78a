import { Injectable } from '@nestjs/common';
import { NEWCOMER, type Rating } from '#domain/ratings/rating.js';
import { ratedSeason, type SeasonGame } from '#domain/ratings/rated-season.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { PlayersService } from '../players/players.service.js';
import { BracketsRepository, type PlayedPair } from './brackets.repository.js';
import type { RatingsResponse } from './odds.dto.js';

export interface KnownRating extends Rating {
  /** Games that it rests on. */
  readonly games: number;
}

/** Ratings from all results in view, by player as one person across clans. */
export interface Ratings {
  readonly events: number;
  readonly games: number;
  readonly players: ReadonlyMap<string, KnownRating>;
  of(playerId: string): KnownRating;
}

/** Glicko-2 over the archive as the clan sees it, each event a rating period. */
@Injectable()
export class RatingsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly repository: BracketsRepository,
    private readonly players: PlayersService,
  ) {}

  list(credential: Credential): Promise<RatingsResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      const ratings = await this.rate(db);
      const handles = await this.players.handles(db, [...ratings.players.keys()]);
      const players = [...ratings.players].map(([playerId, { rating, deviation, volatility, games }]) => ({
        playerId,
        handle: handles.get(playerId) ?? 'a player you may not see',
        rating,
        deviation,
        volatility,
        games,
      }));
      players.sort((one, other) => other.rating - one.rating || (one.playerId < other.playerId ? -1 : 1));
      return { events: ratings.events, games: ratings.games, players };
    });
  }

  async rate(db: ClanDatabase): Promise<Ratings> {
    const pairs = await this.repository.played(db);
    const numbers = new Map<string, number>();
    for (const { home, away } of pairs) {
      for (const player of [home, away]) if (!numbers.has(player)) numbers.set(player, numbers.size);
    }
    const periods = new Map<string, SeasonGame[]>();
    const played = new Map<string, number>();
    for (const pair of pairs) {
      const games = gamesOf(pair, numbers);
      periods.set(pair.eventId, [...(periods.get(pair.eventId) ?? []), ...games]);
      for (const player of [pair.home, pair.away]) played.set(player, (played.get(player) ?? 0) + games.length);
    }
    const ratings = ratedSeason(numbers.size, [...periods.values()]);
    const players = new Map(
      [...numbers].map(([player, number]): [string, KnownRating] => [
        player,
        { ...(ratings[number] ?? NEWCOMER), games: played.get(player) ?? 0 },
      ]),
    );
    return {
      events: periods.size,
      games: [...periods.values()].reduce((sum, games) => sum + games.length, 0),
      players,
      of: (playerId) => players.get(playerId) ?? { ...NEWCOMER, games: 0 },
    };
  }
}

function gamesOf(pair: PlayedPair, numbers: ReadonlyMap<string, number>): SeasonGame[] {
  const sides = { home: numbers.get(pair.home) ?? -1, away: numbers.get(pair.away) ?? -1 };
  const times = (count: number, homeScore: number): SeasonGame[] =>
    Array.from({ length: count }, () => ({ ...sides, homeScore }));
  return [...times(pair.homeWins, 1), ...times(pair.draws, 0.5), ...times(pair.awayWins, 0)];
}
