import { Injectable } from '@nestjs/common';
import { DIMENSION_LABELS } from '#domain/tendencies/dimension-names.js';
import { readDimension } from '#domain/tendencies/dimensions.js';
import { openers } from '#domain/tendencies/sequences/openers.js';
import { orderDependence } from '#domain/tendencies/sequences/order-dependence.js';
import { reactions } from '#domain/tendencies/sequences/reactions.js';
import { repeatHabits } from '#domain/tendencies/sequences/repeat-habits.js';
import { knownCounting, restsOnWords, snapsAndGames } from '#domain/tendencies/words/rests-on-words.js';
import { askedDimension } from '../../common/asked-dimension.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import { TendencyAnswersService, type Asking } from '../tendencies/tendency-answers.service.js';
import { openersResponse, orderResponse, reactionResponse, repeatResponse } from './sequences-response.js';
import type { SequencesQuery, SequencesResponse } from './sequences.dto.js';

const USUAL = { offense: 'callFamily', defense: 'coverage' } as const;

@Injectable()
export class SequencesService {
  constructor(private readonly answers: TendencyAnswersService) {}

  read(asking: Asking<SequencesQuery>): Promise<TaggedAnswer> {
    const { side, voice, openers: most, dimension: named } = asking.query;
    return this.answers.answer(
      'sequences',
      asking,
      async ({ head, asked, scouting: { gamesLeftOut } }): Promise<SequencesResponse> => {
        const dimension = askedDimension(named, side, USUAL);
        const of = await asked();
        const label = DIMENSION_LABELS[dimension];
        const { snaps, games } = snapsAndGames(of.facts);
        const known = knownCounting(of.facts, readDimension(dimension, of.facts, of.vocabulary).codes);
        const context = { dimension, plays: of.facts.plays, voice };
        return {
          ...head,
          restsOn: restsOnWords({ snaps, games, about: { label, known }, gamesLeftOut }),
          dimension,
          dimensionLabel: label,
          snaps,
          known,
          openers: openers(of, dimension, most).map((half) => openersResponse(half, most, context)),
          repeats: repeatHabits(of, dimension).map((habit) => repeatResponse(habit, context)),
          reactions: reactions(of, dimension).map((reaction) => reactionResponse(reaction, context)),
          order: orderResponse(orderDependence(of, dimension), context),
        };
      },
      'whole charts',
    );
  }
}
