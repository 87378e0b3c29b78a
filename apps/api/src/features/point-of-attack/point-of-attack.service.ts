import { Injectable } from '@nestjs/common';
import { pointOfAttack } from '#domain/tendencies/point-of-attack/point-of-attack.js';
import { causeWords, otherSideWords } from '#domain/tendencies/words/point-of-attack-words.js';
import { restsOnWords, snapsAndGames } from '#domain/tendencies/words/rests-on-words.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { evidencedShare, valueCount } from '../../common/value-count.js';
import { TendencyAnswersService, type Asking } from '../tendencies/tendency-answers.service.js';
import { attackSplit, meantAndWent } from './point-of-attack-response.js';
import type { PointOfAttackQuery, PointOfAttackResponse } from './point-of-attack.dto.js';

@Injectable()
export class PointOfAttackService {
  constructor(private readonly answers: TendencyAnswersService) {}

  read(asking: Asking<PointOfAttackQuery>): Promise<TaggedAnswer> {
    const { voice } = asking.query;
    return this.answers.answer('point of attack', asking, async ({ head, asked }): Promise<PointOfAttackResponse> => {
      const of = await asked();
      const { plays } = of.facts;
      const { all, causes, otherSide, sides, gaps, byFront, byPressureSide } = pointOfAttack(of);
      const about = { label: 'whether it was forced', known: all.forced.known };
      return {
        ...head,
        restsOn: restsOnWords({ ...snapsAndGames(of.facts), about, gamesLeftOut: 0 }),
        all: attackSplit(all, '', plays, voice),
        causes: causes.map((cause) => valueCount(causeWords(cause), cause, plays)),
        otherSide: evidencedShare(otherSideWords(otherSide, voice), otherSide, plays),
        sides: meantAndWent(sides, plays),
        gaps: meantAndWent(gaps, plays),
        byFront: byFront.map((split) => attackSplit(split, 'front', plays, voice)),
        byPressureSide: byPressureSide.map((split) => attackSplit(split, 'pressure from', plays, voice)),
      };
    });
  }
}
