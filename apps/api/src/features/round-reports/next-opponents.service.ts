import { Injectable } from '@nestjs/common';
import { stageRoundName } from '#domain/bracket/round-name.js';
import {
  forkPlan,
  MOST_CANDIDATES,
  opponentBrief,
  preparationShares,
  type OpponentBrief,
} from '#domain/reports/next-opponents.js';
import type { NextOpponents, OddsSimulation, RoundAhead } from '#domain/reports/next-opponents-shape.js';
import { ApiError } from '../../common/problems.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import { placeIn } from '../../rendering/report-film.js';
import type { Credential } from '../access/credential.js';
import { OddsService, type EventOdds } from '../brackets/odds.service.js';
import { EventsService, type NextMatch } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import type { BriefClipResponse, NextOpponentsQuery, NextOpponentsResponse } from './next-opponents.dto.js';
import { ReportMakerService } from './report-maker.service.js';
import { RoundReportsRepository } from './round-reports.repository.js';

const MOST_CHANGES = 3;
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
    private readonly transactions: ClanTransactions,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly odds: OddsService,
    private readonly maker: ReportMakerService,
    private readonly repository: RoundReportsRepository,
  ) {}

  read(
    credential: Credential,
    eventId: string,
    { player, minutes }: NextOpponentsQuery,
  ): Promise<NextOpponentsResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, eventId);
      const { identity } = await this.players.require(db, player);
      const next = await this.find(db, eventId, identity);
      const { candidates, certain, match } = next;
      const briefs = await this.briefs(db, eventId, next);
      const shares = preparationShares(candidates.map(({ probability }) => probability));
      const plan = forkPlan(
        briefs.map(({ facts, clips }, at) => ({ share: shares[at] ?? 0, facts: facts.length, clips: clips.length })),
        minutes,
      );
      const videos = await this.videos(db, briefs);
      return {
        eventId,
        playerId: identity,
        round: match.roundName,
        certain,
        minutes,
        opponents: candidates.map((candidate, at) => {
          const brief = briefs[at] ?? { facts: [], clips: [], notKnown: [] };
          const watched = plan.filter((step) => step.candidate === at).reduce((sum, step) => sum + step.clips, 0);
          return {
            ...candidate,
            share: shares[at] ?? 0,
            facts: [...brief.facts],
            clips: brief.clips.slice(0, watched).map((clip) => clipResponse(clip, videos)),
            notKnown: [...brief.notKnown],
          };
        }),
        others: Math.max(0, 1 - candidates.reduce((sum, { probability }) => sum + probability, 0)),
        changes: byTurns(briefs.map(({ changes }) => changes))
          .slice(0, MOST_CHANGES)
          .map(({ words, of }) => ({ against: candidates[of]?.playerId ?? '', words })),
        plan: plan.map(({ fromMinute, minutes: takes, candidate, what, clips }) => ({
          fromMinute,
          minutes: takes,
          words: planWords(what, candidate === null ? null : (candidates[candidate]?.handle ?? null), clips),
        })),
      };
    });
  }

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
    const briefs = next.certain ? [] : await this.briefs(db, eventId, next);
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

  private async briefs(db: ClanDatabase, eventId: string, { candidates, match }: NextUp): Promise<OpponentBrief[]> {
    const briefs: OpponentBrief[] = [];
    for (const { playerId } of candidates) {
      const opponent = await this.players.require(db, playerId);
      const wish = { eventId, round: match.roundName, next: null, asOf: null, habits: false };
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

  private async videos(db: ClanDatabase, briefs: readonly OpponentBrief[]): Promise<Videos> {
    const charts = new Set(briefs.flatMap(({ clips }) => clips.map(({ play }) => play.chartId)));
    const rows = await this.repository.charts(db, [...charts]);
    return new Map(
      rows.map(({ id, url, offsetSeconds }) => [id, url === null ? null : { url, offsetSeconds: offsetSeconds ?? 0 }]),
    );
  }
}

type Videos = ReadonlyMap<string, { readonly url: string; readonly offsetSeconds: number } | null>;

function clipResponse(
  { play, gameId, second, reason }: OpponentBrief['clips'][number],
  videos: Videos,
): BriefClipResponse {
  const place = placeIn(videos.get(play.chartId) ?? null, second);
  return {
    gameId,
    chartId: play.chartId,
    playNumber: play.playNumber,
    second: place.second,
    url: place.address,
    reason,
  };
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

/** What each candidate would have us change, by turns, so that the second has a say as well. */
function byTurns(changes: readonly (readonly string[])[]): { readonly words: string; readonly of: number }[] {
  const longest = Math.max(0, ...changes.map(({ length }) => length));
  return Array.from({ length: longest }, (_, turn) =>
    changes.flatMap((own, of) => {
      const words = own[turn];
      return words === undefined ? [] : [{ words, of }];
    }),
  ).flat();
}

function planWords(what: string, handle: string | null, clips: number): string {
  if (handle === null) return 'decide the changes to the sheet, three at most';
  return clips === 0 ? `${what} on ${handle}` : `watch ${clips} ${clips === 1 ? 'clip' : 'clips'} of ${handle}`;
}
