import { Injectable } from '@nestjs/common';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { without } from '../../common/without.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { CALL_TERMS } from '../terms/term-words.service.js';
import { WordedResourcesService, type Worded } from '../terms/worded-resources.service.js';
import { OwnCallInput, type OwnCallPage, type OwnCallResponse, type OwnCallsQuery } from './own-calls.dto.js';
import { OwnCallsRepository, type OwnCallRow } from './own-calls.repository.js';

type OwnCalls = Worded<keyof typeof CALL_TERMS, OwnCallRow, OwnCallRow, OwnCallInput, OwnCallResponse>;

/** What the clan meant to call, apart from what was seen. */
@Injectable()
export class OwnCallsService {
  private readonly calls;

  constructor(
    worded: WordedResourcesService,
    private readonly repository: OwnCallsRepository,
  ) {
    this.calls = worded.of(ownCalls(repository));
  }

  list(credential: Credential, { after, limit, gameId, side }: OwnCallsQuery): Promise<OwnCallPage> {
    const filter = { after: after ?? null, gameId: gameId ?? null, side: side ?? null };
    return this.calls.list(credential, limit, (db, most) => this.repository.list(db, filter, most));
  }

  /** What the reader may see of these games' log, its terms as they are stored. */
  ofGames(db: ClanDatabase, gameIds: readonly string[]): Promise<OwnCallRow[]> {
    return this.repository.ofGames(db, gameIds);
  }

  read(credential: Credential, id: string): Promise<OwnCallResponse> {
    return this.calls.read(credential, id);
  }

  create(credential: Credential, creation: Creation, input: OwnCallInput): Promise<OwnCallResponse> {
    return this.calls.create(credential, creation, input);
  }

  change(credential: Credential, id: string, change: Change): Promise<OwnCallResponse> {
    return this.calls.change(credential, id, change);
  }

  remove(credential: Credential, id: string, ifMatch: string): Promise<void> {
    return this.calls.remove(credential, id, ifMatch);
  }
}

function ownCalls(repository: OwnCallsRepository): OwnCalls {
  return {
    kind: 'own call',
    input: OwnCallInput,
    repository,
    termsOf: () => CALL_TERMS,
    answerOf: ({ id, gameId, orderInGame, side, menuCallId, note, visibleTo }, words) => {
      const { callFamily, concept, formation, front, coverage, pressure } = words;
      return {
        ...{ id, gameId, orderInGame, side, menuCallId },
        ...{ callFamily, concept, formation, front, coverage, pressure, note, visibleTo },
      };
    },
    inputOf: (answer) => without(answer, 'id'),
    rowOf: (id, { gameId, orderInGame, side, menuCallId, note, visibleTo }, ids) => ({
      ...{ id, gameId, orderInGame, side, menuCallId: menuCallId ?? null, ...ids, note: note ?? null },
      visibleTo: visibleTo ?? 'clan',
    }),
  };
}
