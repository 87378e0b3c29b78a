import { Injectable } from '@nestjs/common';
import { manualDefender } from '#domain/tendencies/manual-defender/manual-defender.js';
import { readDimension } from '#domain/tendencies/dimensions.js';
import { knownCounting, restsOnWords, snapsAndGames } from '#domain/tendencies/words/rests-on-words.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { TendencyAnswersService, type Asking } from '../tendencies/tendency-answers.service.js';
import { controlledSituation, openingResponse, startsAndActions } from './manual-defender-response.js';
import type { ManualDefenderQuery, ManualDefenderResponse } from './manual-defender.dto.js';

@Injectable()
export class ManualDefenderService {
  constructor(private readonly answers: TendencyAnswersService) {}

  read(asking: Asking<ManualDefenderQuery>): Promise<TaggedAnswer> {
    const { voice } = asking.query;
    return this.answers.answer('manual defender', asking, async ({ head, asked }): Promise<ManualDefenderResponse> => {
      const of = await asked();
      const { plays } = of.facts;
      const { situations, together, openings } = manualDefender(of);
      const { codes } = readDimension('manualDefenderAction', of.facts, of.vocabulary);
      const about = { label: 'action of the controlled defender', known: knownCounting(of.facts, codes) };
      return {
        ...head,
        restsOn: restsOnWords({ ...snapsAndGames(of.facts), about, gamesLeftOut: 0 }),
        situations: situations.map((situation) => controlledSituation(situation, plays, voice)),
        together: startsAndActions(together, plays),
        openings: openings.map((opening) => openingResponse(opening, plays, voice)),
      };
    });
  }
}
