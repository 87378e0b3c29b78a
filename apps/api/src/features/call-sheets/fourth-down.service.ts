import { Injectable } from '@nestjs/common';
import { fourthDownAdvice, type Choice } from '#domain/call-sheet/fourth-down.js';
import { fourthDownWords } from '#domain/call-sheet/fourth-down-words.js';
import { bandName, DEFAULT_SITUATIONS } from '#domain/football/situations.js';
import { decisionWords } from '#domain/tendencies/words/decision-words.js';
import { interval, rounded } from '../../common/figures.js';
import { evidencedShare } from '../../common/value-count.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { PlayersService } from '../players/players.service.js';
import { TendenciesService, type Archive } from '../tendencies/tendencies.service.js';
import type { ChoiceResponse, FourthDownQuery, FourthDownResponse } from './fourth-down.dto.js';
import { OurFiguresService } from './our-figures.service.js';
import { rateResponse } from './rate-response.js';
import { secondsOfGame } from './seconds-left.js';

const CONFIDENCE = 0.9;

@Injectable()
export class FourthDownService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly tendencies: TendenciesService,
    private readonly events: EventsService,
    private readonly players: PlayersService,
    private readonly figures: OurFiguresService,
  ) {}

  read(credential: Credential, playerId: string, query: FourthDownQuery): Promise<FourthDownResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, query.eventId);
      const [player, opponent] = await this.players.requireAll(db, [playerId, query.opponentId]);
      const archive = await this.tendencies.archive(db);
      const figures = this.figures.of(archive, player, CONFIDENCE);
      const { distance, yardsToGoal, timeouts, scoreDifference = null } = query;
      const situation = { distance, yardsToGoal, timeouts, scoreDifference, secondsLeft: secondsLeft(query, archive) };
      const advice = fourthDownAdvice(figures, archive.expectedPoints, situation);
      const { decision, plays } = await this.figures.theirs(db, opponent, CONFIDENCE);
      const part = bandName(distance, DEFAULT_SITUATIONS.fourthDownBands);
      const share =
        decision.by.find(({ partition }) => partition === 'distance')?.parts.find((one) => one.part === part)?.share ??
        decision.all;
      return {
        playerId,
        words: fourthDownWords(advice, situation),
        best: advice.best,
        choices: advice.choices.map(choiceResponse),
        drivesLeft: advice.drivesLeft === null ? null : rounded(advice.drivesLeft),
        guesses: [...advice.guesses],
        them: evidencedShare(
          decisionWords('fourthDown', share, share === decision.all ? null : { partition: 'distance', part }, 'scout'),
          share,
          plays,
        ),
      };
    });
  }
}

/** Of the game; null without a clock. */
function secondsLeft({ clockSeconds, ...query }: FourthDownQuery, { charts }: Archive): number | null {
  return clockSeconds === undefined ? null : secondsOfGame(charts, { ...query, clockSeconds });
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
