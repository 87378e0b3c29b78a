import { Injectable } from '@nestjs/common';
import type { AnswerModel } from '#domain/answers/answer-model.js';
import type { AskedCall, AskedDefense } from '#domain/answers/asked-call.js';
import type { Side } from '#domain/tendencies/tendency-plays.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { PlayersService } from '../players/players.service.js';
import { CALL_TERMS, TermWordsService, type WordsOf } from '../terms/term-words.service.js';
import type { WhoIs } from './answers-response.js';
import type { FieldAnswers } from './field-answers.service.js';

/** A call as it was asked for, in the canonical terms of the model; what is of the other side is left out. */
export type AskedTerms = Required<AskedCall & AskedDefense>;

const NOTHING: AskedTerms = {
  ...{ conceptId: null, familyId: null, formationId: null },
  ...{ frontId: null, coverageId: null, pressureId: null },
};

/** From the words of a question to terms, and from the players of the archive to who they are for this reader. */
@Injectable()
export class AskedCallsService {
  constructor(
    private readonly words: TermWordsService,
    private readonly players: PlayersService,
  ) {}

  /** @throws ApiError `request.invalid` for a word that is not in the vocabulary */
  async of(
    db: ClanDatabase,
    { vocabulary }: AnswerModel,
    side: Side,
    words: WordsOf<keyof typeof CALL_TERMS>,
  ): Promise<AskedTerms> {
    const ids = await this.words.ids(db, CALL_TERMS, words);
    const term = (id: number | null): number | null => (id === null ? null : vocabulary.canonicalId(id));
    return side === 'offense'
      ? {
          ...NOTHING,
          ...{ conceptId: term(ids.concept), familyId: term(ids.callFamily), formationId: term(ids.formation) },
        }
      : {
          ...NOTHING,
          ...{ frontId: term(ids.front), coverageId: term(ids.coverage), pressureId: term(ids.pressure) },
        };
  }

  async whoIs(db: ClanDatabase, { identities }: Pick<FieldAnswers, 'identities'>): Promise<WhoIs> {
    const handles = await this.players.handles(db, identities);
    return (player) => {
      const identity = identities[player] ?? null;
      return { playerId: identity, handle: identity === null ? null : (handles.get(identity) ?? null) };
    };
  }
}

/** The parts of a call by name: `trips, counter read`; empty where all are open. */
export function callLabel({ vocabulary }: AnswerModel, ids: readonly (number | null)[]): string {
  return ids.flatMap((id) => (id === null ? [] : [vocabulary.byId(id)?.name ?? `term ${id}`])).join(', ');
}
