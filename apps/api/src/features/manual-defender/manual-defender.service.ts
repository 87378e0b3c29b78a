import { Injectable } from '@nestjs/common';
import type { MenuCall } from '#domain/answers/options.js';
import type { AskedPlays } from '#domain/tendencies/decisions/asked-plays.js';
import type { LeftArea } from '#domain/tendencies/manual-defender/left-areas.js';
import { manualDefender } from '#domain/tendencies/manual-defender/manual-defender.js';
import { ownCallsInto } from '#domain/tendencies/manual-defender/own-calls-into.js';
import { readDimension } from '#domain/tendencies/dimensions.js';
import { knownCounting, restsOnWords, snapsAndGames } from '#domain/tendencies/words/rests-on-words.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { MenuService } from '../menu/menu.service.js';
import { TendenciesService } from '../tendencies/tendencies.service.js';
import { TendencyAnswersService, type AnswerHead, type Asking } from '../tendencies/tendency-answers.service.js';
import { controlledSituation, openingResponse, ownCallResponse, startsAndActions } from './manual-defender-response.js';
import type { ManualDefenderQuery, ManualDefenderResponse, OwnCallIntoResponse } from './manual-defender.dto.js';

@Injectable()
export class ManualDefenderService {
  constructor(
    private readonly answers: TendencyAnswersService,
    private readonly tendencies: TendenciesService,
    private readonly menu: MenuService,
  ) {}

  read(asking: Asking<ManualDefenderQuery>): Promise<TaggedAnswer> {
    return this.answers.answer<ManualDefenderQuery, readonly MenuCall[]>(
      'manual defender',
      asking,
      async ({ head, asked }, menu): Promise<ManualDefenderResponse> =>
        answered(asking.query, head, await asked(), menu ?? []),
      'any charts',
      async (db) => this.menu.installed(db, (await this.tendencies.reader(db)).vocabulary),
    );
  }
}

function answered(
  { voice }: ManualDefenderQuery,
  head: AnswerHead,
  of: AskedPlays,
  menu: readonly MenuCall[],
): ManualDefenderResponse {
  const { plays } = of.facts;
  const { situations, together, openings } = manualDefender(of);
  const { codes } = readDimension('manualDefenderAction', of.facts, of.vocabulary);
  const about = { label: 'action of the controlled defender', known: knownCounting(of.facts, codes) };
  const everybody = of.field?.facts ?? of.facts;
  const into = new Map<LeftArea, OwnCallIntoResponse[]>();
  const ownCalls = (area: LeftArea): OwnCallIntoResponse[] => {
    const known =
      into.get(area) ??
      ownCallsInto(everybody, of.vocabulary, area, menu).map((call) =>
        ownCallResponse(call, everybody.plays, of.vocabulary),
      );
    into.set(area, known);
    return known;
  };
  return {
    ...head,
    restsOn: restsOnWords({ ...snapsAndGames(of.facts), about, gamesLeftOut: 0 }),
    situations: situations.map((situation) => controlledSituation(situation, plays, voice)),
    together: startsAndActions(together, plays),
    openings: openings.map((opening) => openingResponse(opening, plays, voice, ownCalls(opening.area))),
  };
}
