import { Injectable } from '@nestjs/common';
import { lateGameAdvice, type LateGame, type Weighed } from '#domain/late-game/late-game.js';
import { lateGameWords } from '#domain/late-game/late-words.js';
import { rounded } from '../../common/figures.js';
import { KeptAnswers } from '../../common/kept-answers.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService, type KnownPlayer } from '../players/players.service.js';
import { TendenciesService, type Reader } from '../tendencies/tendencies.service.js';
import type { LateGameQuery, LateGameResponse, WeighedResponse } from './late-game.dto.js';
import { OurFiguresService } from './our-figures.service.js';
import { rateResponse } from './rate-response.js';
import { guessesOfQuarter, quarterLength, secondsUntil, type QuarterLength } from './seconds-left.js';

/** Who asks, and against whom. */
interface Sides {
  readonly player: KnownPlayer;
  readonly opponent: KnownPlayer;
}

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
    private readonly kept: KeptAnswers,
  ) {}

  read(
    credential: Credential,
    playerId: string,
    query: LateGameQuery,
    heldTag: string | undefined,
  ): Promise<TaggedAnswer> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, query.eventId);
      const [player, opponent] = await this.players.requireAll(db, [playerId, query.opponentId]);
      const reader = await this.tendencies.reader(db);
      const archive = await this.tendencies.archiveInputs(db, reader);
      const inputs = ['late game', archive, playerId, query, player, opponent];
      return this.kept.answer(inputs, heldTag, async () => ({
        playerId,
        ...(await this.made(db, reader, { player, opponent }, query)),
      }));
    });
  }

  private async made(
    db: ClanDatabase,
    reader: Reader,
    { player, opponent }: Sides,
    query: LateGameQuery,
  ): Promise<Omit<LateGameResponse, 'playerId'>> {
    const archive = await this.tendencies.archive(db, reader);
    const ours = this.figures.of(archive, player, CONFIDENCE);
    const theirs = this.figures.of(archive, opponent, CONFIDENCE);
    const length = quarterLength(archive.charts, query.eventId);
    const advised = lateGameAdvice(ours, theirs, situationOf(query, length));
    const advice = { ...advised, guesses: [...advised.guesses, ...guessesOfQuarter(query.quarter, length)] };
    return {
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
      guesses: advice.guesses,
    };
  }
}

function situationOf(
  { quarter, clockSeconds, scoreDifference, timeouts, runOffSeconds, ...query }: LateGameQuery,
  length: QuarterLength,
): LateGame {
  const { ball, down, yardsToGoal, theirTimeouts } = query;
  return {
    ...{ lead: scoreDifference, ball, down, yardsToGoal, ourTimeouts: timeouts, theirTimeouts },
    secondsLeft: secondsUntil(4, quarter, clockSeconds, length),
    secondsOfHalf: quarter <= 2 ? secondsUntil(2, quarter, clockSeconds, length) : null,
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
