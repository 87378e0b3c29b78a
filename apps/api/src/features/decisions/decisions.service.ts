import { Injectable } from '@nestjs/common';
import { DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { decisions, timeoutsOf } from '#domain/tendencies/decisions/decisions.js';
import { restsOnWords, snapsAndGames } from '#domain/tendencies/words/rests-on-words.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { TendencyAnswersService, type Asking } from '../tendencies/tendency-answers.service.js';
import { clockOfGames } from '../../common/clock-of-games.js';
import { decisionResponse, timeoutsResponse } from './decisions-response.js';
import { DECIDED, type DecisionsQuery, type DecisionsResponse } from './decisions.dto.js';

@Injectable()
export class DecisionsService {
  constructor(private readonly answers: TendencyAnswersService) {}

  read(asking: Asking<DecisionsQuery>): Promise<TaggedAnswer> {
    const { voice } = asking.query;
    return this.answers.answer(
      'decisions',
      asking,
      async ({ head, asked, scouting: { gamesLeftOut } }): Promise<DecisionsResponse> => {
        const [offense, defense] = [await asked('offense'), await asked('defense')];
        const clock = clockOfGames([...offense.charts, ...offense.fieldCharts]);
        const found = decisions(offense, { situations: DEFAULT_FOOTBALL_SETTINGS.situations, clock });
        const { plays } = offense.facts;
        return {
          ...head,
          restsOn: restsOnWords({ ...snapsAndGames(offense.facts), about: null, gamesLeftOut }),
          decisions: DECIDED.map((name) => decisionResponse(name, found[name], plays, voice)),
          usualPace: found.usualPace,
          timeouts: [
            timeoutsResponse('offense', found.timeouts, plays, voice),
            timeoutsResponse('defense', timeoutsOf('defense', defense, clock), defense.facts.plays, voice),
          ],
        };
      },
      'whole charts',
    );
  }
}
