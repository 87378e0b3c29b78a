import { Injectable } from '@nestjs/common';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { ApiError } from '../../common/problems.js';
import { found } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { CALL_TERMS } from '../terms/term-words.service.js';
import { WordedResourcesService, type Worded } from '../terms/worded-resources.service.js';
import {
  CoachingPointInput,
  type CoachingPointPage,
  type CoachingPointResponse,
  type CoachingPointsQuery,
  type CoachingPointVersions,
} from './coaching-points.dto.js';
import { CoachingPointsRepository, type CoachingPointRow, type WrittenPoint } from './coaching-points.repository.js';

type CoachingPoints = Worded<
  keyof typeof CALL_TERMS,
  CoachingPointRow,
  WrittenPoint,
  CoachingPointInput,
  CoachingPointResponse
>;

/** Short signed notes on a call, an answer, an opponent or a play; what they said before is kept. */
@Injectable()
export class CoachingPointsService {
  private readonly points;

  constructor(
    private readonly transactions: ClanTransactions,
    worded: WordedResourcesService,
    private readonly repository: CoachingPointsRepository,
  ) {
    this.points = worded.of(coachingPoints(repository));
  }

  list(credential: Credential, query: CoachingPointsQuery): Promise<CoachingPointPage> {
    const { after, limit, about, playerId, chartId, menuCallId } = query;
    const filter = {
      after: after ?? null,
      about: about ?? null,
      playerId: playerId ?? null,
      chartId: chartId ?? null,
      menuCallId: menuCallId ?? null,
    };
    return this.points.list(credential, limit, (db, most) => this.repository.list(db, filter, most));
  }

  read(credential: Credential, id: string): Promise<CoachingPointResponse> {
    return this.points.read(credential, id);
  }

  versions(credential: Credential, id: string): Promise<CoachingPointVersions> {
    return this.transactions.run(credential, 'read', async (db) => {
      const { revision, text, writtenBy, writtenAt } = found(await this.repository.find(db, id), 'coaching point');
      return { items: [{ revision, text, writtenBy, writtenAt }, ...(await this.repository.versions(db, id))] };
    });
  }

  create(credential: Credential, creation: Creation, input: CoachingPointInput): Promise<CoachingPointResponse> {
    return this.points.create(credential, creation, input);
  }

  change(credential: Credential, id: string, change: Change): Promise<CoachingPointResponse> {
    return this.points.change(credential, id, change);
  }

  remove(credential: Credential, id: string, ifMatch: string | null): Promise<void> {
    return this.points.remove(credential, id, ifMatch);
  }
}

function coachingPoints(repository: CoachingPointsRepository): CoachingPoints {
  return {
    kind: 'coaching point',
    input: CoachingPointInput,
    repository,
    termsOf: () => CALL_TERMS,
    answerOf: (row, { callFamily, concept, formation, front, coverage, pressure }) => {
      const { id, about, text, menuCallId, playerId, chartId, playNumber, revision, writtenBy, writtenAt, visibleTo } =
        row;
      return {
        ...{ id, about, text, menuCallId, callFamily, concept, formation, front, coverage, pressure },
        ...{ playerId, chartId, playNumber, revision, writtenBy, writtenAt, visibleTo },
      };
    },
    inputOf: (answer) => without(answer, 'id', 'revision', 'writtenBy', 'writtenAt'),
    rowOf: (id, { about, text, menuCallId, playerId, chartId, playNumber, visibleTo }, ids) => ({
      ...{ id, about, text, menuCallId: menuCallId ?? null, ...ids, playerId: playerId ?? null },
      ...{ chartId: chartId ?? null, playNumber: playNumber ?? null, visibleTo: visibleTo ?? 'clan' },
    }),
    check: async (db, input, before) => {
      const moved = input.chartId !== before?.chartId || input.playNumber !== before?.playNumber;
      if (moved) await requirePlay(repository, db, input);
    },
  };
}

/** A play has no foreign key here, since it may be another clan's. */
async function requirePlay(
  repository: CoachingPointsRepository,
  db: ClanDatabase,
  { chartId, playNumber }: CoachingPointInput,
): Promise<void> {
  if (chartId == null || playNumber == null) return;
  if (await repository.seesPlay(db, chartId, playNumber)) return;
  throw new ApiError('resource.reference_unknown', 'there is no such play', {
    errors: [{ field: 'playNumber', found: String(playNumber), expected: 'a play of that chart, which you can read' }],
  });
}
