import { Injectable } from '@nestjs/common';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { TERM_PARTS } from '#domain/coaching/note.js';
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
import {
  CoachingPointsRepository,
  type ClanPoint,
  type CoachingPointRow,
  type PointVersion,
  type WrittenPoint,
} from './coaching-points.repository.js';

export type { ClanPoint } from './coaching-points.repository.js';

type CoachingPoints = Worded<
  keyof typeof CALL_TERMS,
  CoachingPointRow,
  WrittenPoint,
  CoachingPointInput,
  CoachingPointResponse
>;

/** The newest of them; a clan that has written more has them on its list. */
const MOST_OF_A_CLAN = 1000;

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

  /** What the whole clan reads, with the terms that the vocabulary reads them as. */
  async ofClan(db: ClanDatabase, vocabulary: Vocabulary): Promise<ClanPoint[]> {
    const points = await this.repository.ofClan(db, MOST_OF_A_CLAN);
    const canonical = (term: number | null): number | null => (term === null ? null : vocabulary.canonicalId(term));
    return points.map((point) => ({
      ...point,
      ...Object.fromEntries(TERM_PARTS.map((part) => [part, canonical(point[part])])),
    }));
  }

  /** What points said at a revision; null for one that is gone, or that the reader may no longer read. */
  async versionsOf(
    db: ClanDatabase,
    ids: readonly string[],
  ): Promise<(id: string, revision: number) => PointVersion | null> {
    const versions = ids.length === 0 ? [] : await this.repository.everyVersion(db, ids);
    const byKey = new Map(versions.map((version) => [`${version.id} ${version.revision}`, version]));
    return (id, revision) => byKey.get(`${id} ${revision}`) ?? null;
  }

  create(credential: Credential, creation: Creation, input: CoachingPointInput): Promise<CoachingPointResponse> {
    return this.points.create(credential, creation, input);
  }

  change(credential: Credential, id: string, change: Change): Promise<CoachingPointResponse> {
    return this.points.change(credential, id, change);
  }

  remove(credential: Credential, id: string, ifMatch: string): Promise<void> {
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
