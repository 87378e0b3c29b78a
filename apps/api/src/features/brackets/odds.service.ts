import { Injectable } from '@nestjs/common';
import { meetingOdds, standardError } from '#domain/bracket/meeting-odds.js';
import type { MeetingOdds } from '#domain/bracket/odds-shape.js';
import { stageRoundName } from '#domain/bracket/round-name.js';
import type { MatchUpOverride } from '#domain/bracket/win-chances.js';
import { winProbability } from '#domain/ratings/win-probability.js';
import type { OddsSimulation } from '#domain/reports/next-opponents-shape.js';
import { counted } from '#domain/tendencies/words/count-words.js';
import { ApiError } from '../../common/problems.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import { BracketsService } from './brackets.service.js';
import type { EventBracket } from './event-bracket.js';
import { MatchUpOverridesRepository } from './match-up-overrides.repository.js';
import type { MeetingOddsQuery, MeetingOddsResponse, OpponentOddsResponse, RoundOddsResponse } from './odds.dto.js';
import { RatingsService, type KnownRating, type Ratings } from './ratings.service.js';

export type { OpponentOddsResponse };

export type OddsWish = Pick<MeetingOddsQuery, 'uncertainty' | 'events' | 'seed'>;

/** What is left to meet, with all that the answers are made of. */
export interface EventOdds {
  readonly bracket: EventBracket;
  readonly odds: MeetingOdds;
  /** Null where the odds are exact. */
  readonly simulation: OddsSimulation | null;
  readonly ratings: Ratings;
  readonly overrides: readonly MatchUpOverride[];
  /** The player's place among the entrants. */
  readonly player: number;
  /** Those whom the player may still meet, the most probable first. */
  readonly opponents: readonly OpponentOddsResponse[];
}

const EVENTS = 20_000;
/** Tables are worked out anew in every simulated event, which takes longer by far. */
const EVENTS_WITH_TABLES = 2_000;
const DEFAULT_WISH: OddsWish = { uncertainty: 'each match', seed: 1 };

@Injectable()
export class OddsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly brackets: BracketsService,
    private readonly ratings: RatingsService,
    private readonly overrides: MatchUpOverridesRepository,
  ) {}

  read(credential: Credential, eventId: string, query: MeetingOddsQuery): Promise<MeetingOddsResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, eventId);
      const player = await this.players.require(db, query.player);
      const known = await this.of(db, eventId, player.identity, query);
      const { odds, opponents, ratings, overrides } = known;
      const { games, events } = ratings;
      const byHand = overrides.length === 0 ? '' : `; ${counted(overrides.length, 'match-up')} set by hand`;
      return {
        eventId,
        playerId: player.identity,
        handle: player.handle,
        method: odds.simulatedEvents === null ? 'exact' : 'simulated',
        simulatedEvents: odds.simulatedEvents,
        uncertainty: query.uncertainty,
        restsOn: `Ratings rest on ${counted(games, 'game')} of ${counted(events, 'event')} in view${byHand}.`,
        opponents: [...opponents],
        entrants: entrantOdds(known),
      };
    });
  }

  /**
   * @param playerId - the identity of an entrant
   * @throws ApiError `report.nothing_to_scout` when the player is no entrant of the event
   */
  async of(db: ClanDatabase, eventId: string, playerId: string, wish = DEFAULT_WISH): Promise<EventOdds> {
    const bracket = await this.brackets.load(db, eventId);
    const player = bracket.entrants.findIndex((entrant) => entrant.playerId === playerId);
    if (player < 0)
      throw new ApiError('report.nothing_to_scout', 'the player has no place in the bracket of this event');
    const ratings = await this.ratings.rate(db);
    const overrides = await this.entrantOverrides(db, bracket);
    const { plan, state, entrants } = bracket;
    const tables = plan.steps.some(({ kind }) => kind === 'table');
    const odds = meetingOdds({
      plan,
      state,
      ratings: entrants.map((entrant) => ratings.of(entrant.playerId)),
      overrides,
      player,
      uncertainty: wish.uncertainty,
      events: wish.events ?? (tables ? EVENTS_WITH_TABLES : EVENTS),
      seed: wish.seed,
    });
    const { simulatedEvents } = odds;
    const simulation = simulatedEvents === null ? null : { events: simulatedEvents, seed: wish.seed };
    const known = { bracket, odds, simulation, ratings, overrides, player };
    return { ...known, opponents: opponentOdds(known) };
  }

  private async entrantOverrides(db: ClanDatabase, { entrants }: EventBracket): Promise<MatchUpOverride[]> {
    const numbers = new Map(entrants.map(({ playerId }, number) => [playerId, number]));
    const overrides = await this.overrides.ofClan(db);
    return overrides.flatMap(({ playerId, opponentId, winProbability: probability }) => {
      const [entrant, opponent] = [numbers.get(playerId), numbers.get(opponentId)];
      return entrant === undefined || opponent === undefined ? [] : [{ entrant, opponent, probability }];
    });
  }
}

type Known = Omit<EventOdds, 'opponents'>;

function roundOdds(odds: MeetingOdds, table: Float64Array, entrant: number): RoundOddsResponse[] {
  return odds.rounds.flatMap((round, at) => {
    const probability = table[at * odds.entrants + entrant] ?? 0;
    if (probability === 0) return [];
    return [{ round: stageRoundName(round, odds.rounds), ...withError(probability, odds) }];
  });
}

function withError(value: number, odds: MeetingOdds): { probability: number; standardError: number | null } {
  // Differences of sums leave [0, 1] by a rounding.
  const probability = Math.min(1, Math.max(0, value));
  return { probability, standardError: standardError(probability, odds) };
}

/** Only what is still to come: who was met already is no opponent to prepare for. */
function opponentOdds({ bracket, odds, ratings, overrides, player }: Known): OpponentOddsResponse[] {
  const { entrants, matches, state } = bracket;
  const over = new Set(
    matches.flatMap((_, at) => {
      const [home, away] = [state.seats[2 * at] ?? -1, state.seats[2 * at + 1] ?? -1];
      if ((state.winners[at] ?? -1) < 0 || (home !== player && away !== player)) return [];
      return [home === player ? away : home];
    }),
  );
  const own = ratings.of(entrants[player]?.playerId ?? '');
  const opponents = entrants.flatMap(({ playerId, handle }, opponent): OpponentOddsResponse[] => {
    // Met before and possibly again: what is left is what the rounds to come say.
    const rounds = roundOdds(odds, odds.meets, opponent).filter(
      ({ probability }) => !(over.has(opponent) && probability === 1),
    );
    const probability = over.has(opponent)
      ? Math.min(
          1,
          rounds.reduce((sum, round) => sum + round.probability, 0),
        )
      : (odds.meetsAtAll[opponent] ?? 0);
    if (opponent === player || rounds.length === 0 || probability === 0) return [];
    const override = overrides.find(({ entrant, opponent: other }) =>
      entrant === player ? other === opponent : entrant === opponent && other === player,
    );
    return [
      {
        playerId,
        handle,
        ...withError(probability, odds),
        rounds,
        gameWinProbability: chanceOf(own, ratings.of(playerId), override, player),
        setByHand: override !== undefined,
      },
    ];
  });
  return opponents.sort((one, other) => other.probability - one.probability || (one.handle < other.handle ? -1 : 1));
}

function chanceOf(own: KnownRating, other: KnownRating, override: MatchUpOverride | undefined, player: number): number {
  if (override === undefined) return winProbability(own, other);
  return override.entrant === player ? override.probability : 1 - override.probability;
}

function entrantOdds({ bracket, odds, ratings }: EventOdds): MeetingOddsResponse['entrants'] {
  const entrants = bracket.entrants.map(({ playerId, handle, seed }, entrant) => {
    const { rating, deviation, games } = ratings.of(playerId);
    const title = withError(odds.title[entrant] ?? 0, odds);
    return {
      playerId,
      handle,
      seed,
      rating,
      deviation,
      games,
      plays: roundOdds(odds, odds.plays, entrant),
      exits: roundOdds(odds, odds.exits, entrant),
      title: title.probability,
      titleStandardError: title.standardError,
    };
  });
  return entrants.sort((one, other) => other.title - one.title || (one.handle < other.handle ? -1 : 1));
}
