import { Injectable } from '@nestjs/common';
import type { MenuCall } from '#domain/answers/options.js';
import { situationMix, type SituationMix } from '#domain/answers/situation-mix.js';
import { mixRestsOn } from '#domain/answers/words.js';
import { ApiError } from '../../common/problems.js';
import type { TaggedAnswer } from '../../common/tagged-answer.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { ANSWER_SEED, FieldAnswersService, type FieldAnswers } from '../answers/field-answers.service.js';
import { TendencyAnswersService } from '../tendencies/tendency-answers.service.js';
import { situationMixResponse } from './call-mix-response.js';
import type { CallMixQuery, CallMixResponse } from './call-mix.dto.js';

/** As many situations as a call sheet has room for. */
const MOST_SITUATIONS = 12;

/** Mixes of our calls against an opponent's, situation by situation. */
@Injectable()
export class CallMixService {
  constructor(
    private readonly answers: TendencyAnswersService,
    private readonly field: FieldAnswersService,
  ) {}

  read(credential: Credential, query: CallMixQuery, heldTag: string | undefined): Promise<TaggedAnswer> {
    return this.answers.answer<CallMixQuery, readonly MenuCall[]>(
      'call mix',
      { credential, playerId: query.playerId, query, heldTag },
      async ({ db, head, own }, menu): Promise<CallMixResponse> => {
        const { player } = await own();
        const field = await this.field.of(db);
        const mixes = this.mixes(field, player, query, menu ?? []);
        return {
          ...head,
          restsOn: mixRestsOn(field.model, mixes),
          situations: mixes.map((mix) => situationMixResponse(mix, query.confidence)),
        };
      },
      'any charts',
      (db: ClanDatabase) => this.field.menuOf(db),
    );
  }

  /** In the order of how often the opponent was in them. */
  mixes(
    { model, payoffs, counts }: FieldAnswers,
    player: number,
    { side, situation, confidence }: Pick<CallMixQuery, 'side' | 'situation' | 'confidence'>,
    menu: readonly MenuCall[],
  ): SituationMix[] {
    if (payoffs === null) return [];
    const known = counts[side].situationsOf(player);
    if (situation !== undefined && !model.facts.situationNames.includes(situation)) {
      throw new ApiError('request.invalid', 'there is no such situation', {
        errors: [
          { field: 'situation', found: situation, expected: `one of: ${model.facts.situationNames.join(', ')}` },
        ],
      });
    }
    return known
      .filter((one) => situation === undefined || one.situation === situation)
      .slice(0, MOST_SITUATIONS)
      .flatMap(({ situation: name }) => {
        const question = { situation: name, theirSide: side, player, menu, confidence, seed: ANSWER_SEED };
        const mix = situationMix(model, payoffs, counts, question);
        return mix === null ? [] : [mix];
      });
  }
}
