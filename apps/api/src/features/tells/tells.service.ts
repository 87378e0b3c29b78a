import { Injectable } from '@nestjs/common';
import { readCues } from '#domain/tendencies/tells/cues.js';
import { leads } from '#domain/tendencies/tells/leads.js';
import { tells } from '#domain/tendencies/tells/tells.js';
import { tellsRestOn } from '#domain/tendencies/words/tell-words.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { TendencyAnswersService, type Asking } from '../tendencies/tendency-answers.service.js';
import { cuesKnown, leadResponse, tellResponse } from './tells-response.js';
import { tellsSheet } from './tells-sheet.js';
import type { TellsQuery, TellsResponse } from './tells.dto.js';

@Injectable()
export class TellsService {
  constructor(private readonly answers: TendencyAnswersService) {}

  read(asking: Asking<TellsQuery>): Promise<TaggedAnswer> {
    const { side, confidence, level, leads: most, voice } = asking.query;
    return this.answers.answer('tells', asking, async ({ head, own }): Promise<TellsResponse | string> => {
      const { facts, vocabulary } = await own();
      const result = tells({ plays: facts, side, vocabulary, confidence, level });
      const { plays, games, withoutSituation, cueValues, families, selectedFamilies, calls } = result.tested;
      const context = { facts, searched: plays, voice };
      const found: TellsResponse = {
        ...head,
        restsOn: tellsRestOn(result.tested, result.tells.length),
        level,
        tested: { plays, games, withoutSituation, cueValues, families, selectedFamilies, calls },
        known: cuesKnown(readCues(side, facts, vocabulary), facts),
        tells: result.tells.map((tell) => tellResponse(tell, context)),
        leads: leads(result, most).map((lead) => leadResponse(lead, context)),
      };
      return asking.type === 'text/csv' ? tellsSheet(found) : found;
    });
  }
}
