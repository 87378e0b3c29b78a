import { Injectable } from '@nestjs/common';
import { lateGameAdvice, type LateGame, type Weighed } from '#domain/late-game/late-game.js';
import { lateGameWords } from '#domain/late-game/late-words.js';
import { rounded } from '../../common/figures.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService, type Archive } from '../tendencies/tendencies.service.js';
import type { LateGameQuery, LateGameResponse, WeighedResponse } from './late-game.dto.js';
import { OurFiguresService } from './our-figures.service.js';
import { rateResponse } from './rate-response.js';
import { quarterSeconds, secondsOfGame } from './seconds-left.js';

const CONFIDENCE = 0.9;
/** Of a play clock of forty seconds, snapped at the last moment. Common practice, no source. */
const USUAL_RUN_OFF = 38;

@Injectable()
export class LateGameService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly tendencies: TendenciesService,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly figures: OurFiguresService,
  ) {}

  read(credential: Credential, playerId: string, query: LateGameQuery): Promise<LateGameResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, query.eventId);
      const [player, opponent] = await this.players.requireAll(db, [playerId, query.opponentId]);
      const archive = await this.tendencies.archive(db);
      const ours = this.figures.of(archive, player, CONFIDENCE);
      const theirs = this.figures.of(archive, opponent, CONFIDENCE);
      const advice = lateGameAdvice(ours, theirs, situationOf(query, archive));
      return {
        playerId,
        words: lateGameWords(advice),
        drivesLeft: rounded(advice.drivesLeft),
        twoPoint: weighedResponse(advice.twoPoint),
        onside: weighedResponse(advice.onside),
        clock: { ...advice.clock },
        figures: {
          twoPoint: rateResponse(ours.twoPoint),
          tryKick: rateResponse(ours.tryKick),
          onside: rateResponse(ours.onside),
          touchdown: rateResponse(ours.drives.touchdown),
          fieldGoal: rateResponse(ours.drives.fieldGoal),
          theirTouchdown: rateResponse(theirs.drives.touchdown),
          theirFieldGoal: rateResponse(theirs.drives.fieldGoal),
        },
        guesses: [...advice.guesses],
      };
    });
  }
}

function situationOf(
  { eventId, quarter, clockSeconds, scoreDifference, timeouts, runOffSeconds, ...query }: LateGameQuery,
  { charts }: Archive,
): LateGame {
  const { ball, down, yardsToGoal, theirTimeouts } = query;
  const inFirstHalf = quarter <= 2;
  return {
    ...{ lead: scoreDifference, ball, down, yardsToGoal, ourTimeouts: timeouts, theirTimeouts },
    secondsLeft: secondsOfGame(charts, { eventId, quarter, clockSeconds }),
    secondsOfHalf: inFirstHalf ? clockSeconds + (2 - quarter) * quarterSeconds(charts, eventId) : null,
    runOffSeconds: runOffSeconds ?? USUAL_RUN_OFF,
    runOffKnown: runOffSeconds !== undefined,
  };
}

function weighedResponse({ best, chances, stands }: Weighed<string>): WeighedResponse {
  return {
    best,
    chances: Object.fromEntries(Object.entries(chances).map(([choice, chance]) => [choice, rounded(chance)])),
    stands,
  };
}
