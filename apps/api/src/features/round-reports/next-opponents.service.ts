import { Injectable } from '@nestjs/common';
import { stageRoundName } from '#domain/bracket/round-name.js';
import {
  MOST_CANDIDATES,
  opponentBrief,
  preparationShares,
  type OpponentBrief,
} from '#domain/reports/next-opponents.js';
import type { NextOpponents, OddsSimulation, RoundAhead } from '#domain/reports/next-opponents-shape.js';
import { ApiError } from '../../common/problems.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { OddsService, type EventOdds } from '../brackets/odds.service.js';
import { EventsService, type NextMatch } from '../events/events.service.js';
import { PlayersService, type KnownPlayer } from '../players/players.service.js';
import { ReportMakerService } from './report-maker.service.js';

const MOST_AHEAD = 4;
/** Less probable than this is not worth a minute of twenty. */
const LEAST_PROBABLE = 0.02;

interface Candidate {
  readonly playerId: string;
  readonly handle: string;
  readonly probability: number;
  readonly standardError: number | null;
}

/** Who the next match is against, certain or by odds. */
export interface NextUp {
  readonly match: NextMatch;
  readonly certain: boolean;
  /** At most three, the most probable first. */
  readonly candidates: readonly Candidate[];
  readonly ahead: readonly RoundAhead[];
  readonly simulation: OddsSimulation | null;
}

@Injectable()
export class NextOpponentsService {
  constructor(
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly odds: OddsService,
    private readonly maker: ReportMakerService,
  ) {}

  /**
   * @param playerId - identity of the player who has a match to play
   * @throws ApiError `report.nothing_to_scout` when the player has no match left, or nobody can be told to be next
   */
  async find(db: ClanDatabase, eventId: string, playerId: string): Promise<NextUp> {
    const match = await this.events.nextMatch(db, eventId, playerId);
    if (match === null) {
      throw new ApiError('report.nothing_to_scout', 'the player has no match left in this event; name an opponentId');
    }
    const known = await this.oddsOrNothing(db, eventId, playerId);
    const ahead = known === null ? [] : aheadOf(known);
    const simulation = known?.simulation ?? null;
    if (match.opponentId !== null) {
      const { identity, handle } = await this.players.require(db, match.opponentId);
      return {
        match,
        certain: true,
        candidates: [{ playerId: identity, handle, probability: 1, standardError: null }],
        ahead,
        simulation,
      };
    }
    const candidates = (known?.opponents ?? [])
      .flatMap(({ playerId: opponentId, handle, rounds }): Candidate[] => {
        const there = rounds.find(({ round }) => round === match.roundName);
        if (there === undefined || there.probability < LEAST_PROBABLE) return [];
        return [{ playerId: opponentId, handle, probability: there.probability, standardError: there.standardError }];
      })
      .sort((one, other) => other.probability - one.probability || (one.handle < other.handle ? -1 : 1))
      .slice(0, MOST_CANDIDATES);
    if (candidates.length === 0) {
      throw new ApiError(
        'report.nothing_to_scout',
        'the opponent is still open and the bracket gives no odds; name an opponentId',
      );
    }
    return { match, certain: false, candidates, ahead, simulation };
  }

  /** As a report keeps it. */
  async kept(db: ClanDatabase, eventId: string, next: NextUp): Promise<NextOpponents> {
    const ids = next.candidates.map(({ playerId }) => playerId);
    const briefs = next.certain
      ? []
      : await this.briefs(db, eventId, next.match.roundName, await this.players.requireAll(db, ids));
    const shares = preparationShares(next.candidates.map(({ probability }) => probability));
    return {
      certain: next.certain,
      candidates: next.candidates.map(({ playerId, probability, standardError }, at) => ({
        playerId,
        probability,
        standardError,
        share: shares[at] ?? 0,
        facts: briefs[at]?.facts ?? [],
      })),
      ahead: next.ahead,
      simulation: next.simulation,
    };
  }

  /** Of each, in their order. */
  async briefs(
    db: ClanDatabase,
    eventId: string,
    round: string,
    opponents: readonly KnownPlayer[],
  ): Promise<OpponentBrief[]> {
    const briefs: OpponentBrief[] = [];
    for (const opponent of opponents) {
      const wish = { eventId, round, next: null, asOf: null, habits: false };
      briefs.push(opponentBrief(await this.maker.make(db, opponent, wish)));
    }
    return briefs;
  }

  /** An event whose matches make no bracket still says who is next where both are entered. */
  private async oddsOrNothing(db: ClanDatabase, eventId: string, playerId: string): Promise<EventOdds | null> {
    try {
      return await this.odds.of(db, eventId, playerId);
    } catch (error) {
      if (error instanceof ApiError && /^(bracket|report)\./.test(error.code)) return null;
      throw error;
    }
  }
}

function aheadOf({ odds, opponents, player }: EventOdds): RoundAhead[] {
  const rounds = new Map<string, { playerId: string; probability: number }[]>();
  for (const { playerId, rounds: theirs } of opponents) {
    for (const { round, probability } of theirs) {
      rounds.set(round, [...(rounds.get(round) ?? []), { playerId, probability }]);
    }
  }
  const names = odds.rounds.map((round) => stageRoundName(round, odds.rounds));
  return names.flatMap((round, at): RoundAhead[] => {
    const there = rounds.get(round);
    if (there === undefined) return [];
    there.sort((one, other) => other.probability - one.probability);
    return [{ round, plays: odds.plays[at * odds.entrants + player] ?? 0, opponents: there.slice(0, MOST_AHEAD) }];
  });
}
