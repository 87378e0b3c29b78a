import { Injectable } from '@nestjs/common';
import { fourthDownAdvice, type Choice } from '#domain/call-sheet/fourth-down.js';
import { fourthDownWords } from '#domain/call-sheet/fourth-down-words.js';
import { bandName, DEFAULT_SITUATIONS } from '#domain/football/situations.js';
import { decisionWords } from '#domain/tendencies/words/decision-words.js';
import { interval, rounded } from '../../common/figures.js';
import { evidencedShare } from '../../common/value-count.js';
import { KeptAnswers } from '../../common/kept-answers.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService, type KnownPlayer } from '../players/players.service.js';
import { TendenciesService, type Reader } from '../tendencies/tendencies.service.js';
import type { ChoiceResponse, FourthDownQuery, FourthDownResponse } from './fourth-down.dto.js';
import { OurFiguresService } from './our-figures.service.js';
import { rateResponse } from './rate-response.js';
import { guessesOfQuarter, quarterLength, secondsUntil } from './seconds-left.js';

/** Who asks, and against whom. */
interface Sides {
  readonly player: KnownPlayer;
  readonly opponent: KnownPlayer;
}

const CONFIDENCE = 0.9;

@Injectable()
export class FourthDownService {
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
    query: FourthDownQuery,
    heldTag: string | undefined,
  ): Promise<TaggedAnswer> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, query.eventId);
      const [player, opponent] = await this.players.requireAll(db, [playerId, query.opponentId]);
      const reader = await this.tendencies.reader(db);
      const archive = await this.tendencies.archiveInputs(db, reader);
      const inputs = ['fourth down', archive, playerId, query, player, opponent];
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
    query: FourthDownQuery,
  ): Promise<Omit<FourthDownResponse, 'playerId'>> {
    const archive = await this.tendencies.archive(db, reader);
    const figures = this.figures.of(archive, player, CONFIDENCE);
    const { distance, yardsToGoal, timeouts, scoreDifference = null, quarter, clockSeconds } = query;
    const length = quarterLength(archive.charts, query.eventId);
    const secondsLeft = clockSeconds === undefined ? null : secondsUntil(4, quarter, clockSeconds, length);
    const situation = { distance, yardsToGoal, timeouts, scoreDifference, secondsLeft };
    const advised = fourthDownAdvice(figures, archive.expectedPoints, situation);
    const ofClock = secondsLeft === null ? [] : guessesOfQuarter(quarter, length);
    const advice = { ...advised, guesses: [...advised.guesses, ...ofClock] };
    const { decision, plays } = await this.figures.theirs(db, opponent, CONFIDENCE);
    const part = bandName(distance, DEFAULT_SITUATIONS.fourthDownBands);
    const share =
      decision.by.find(({ partition }) => partition === 'distance')?.parts.find((one) => one.part === part)?.share ??
      decision.all;
    return {
      words: fourthDownWords(advice, situation),
      best: advice.best,
      choices: advice.choices.map(choiceResponse),
      drivesLeft: advice.drivesLeft === null ? null : rounded(advice.drivesLeft),
      guesses: advice.guesses,
      them: evidencedShare(
        decisionWords('fourthDown', share, share === decision.all ? null : { partition: 'distance', part }, 'scout'),
        share,
        plays,
      ),
    };
  }
}

function choiceResponse({ choice, points, interval: bounds, rate, catchesUp }: Choice): ChoiceResponse {
  return {
    choice,
    points: rounded(points),
    interval: bounds === null ? null : interval(bounds),
    rate: rate === null ? null : rateResponse(rate),
    catchesUp,
  };
}
