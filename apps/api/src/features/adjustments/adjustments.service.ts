import { Injectable } from '@nestjs/common';
import { duelAnswers } from '#domain/tendencies/adjustments/duel-answers.js';
import { duelTree } from '#domain/tendencies/adjustments/duel-tree.js';
import { restsOnWords, snapsAndGames } from '#domain/tendencies/words/rests-on-words.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { TendencyAnswersService, type Asking } from '../tendencies/tendency-answers.service.js';
import { duelAnswerResponse, duelNodeResponse } from './adjustments-response.js';
import type { AdjustmentsQuery, AdjustmentsResponse } from './adjustments.dto.js';

@Injectable()
export class AdjustmentsService {
  constructor(private readonly answers: TendencyAnswersService) {}

  read(asking: Asking<AdjustmentsQuery>): Promise<TaggedAnswer> {
    const { side, depth, level, voice } = asking.query;
    return this.answers.answer('adjustments', asking, async ({ head, asked }): Promise<AdjustmentsResponse> => {
      const of = await asked();
      const { plays } = of.facts;
      const { snaps, known, root } = duelTree(of, depth);
      const about = { label: 'duel before the snap', known };
      return {
        ...head,
        restsOn: restsOnWords({ ...snapsAndGames(of.facts), about, gamesLeftOut: 0 }),
        snaps,
        known,
        level,
        tree: duelNodeResponse(root, plays, side, voice),
        answers: duelAnswers(of, side, level).map((answer) => duelAnswerResponse(answer, plays, voice)),
      };
    });
  }
}
