import { Injectable } from '@nestjs/common';
import type { MenuCall } from '#domain/answers/options.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { without } from '../../common/without.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { WordedResourcesService, type Worded } from '../terms/worded-resources.service.js';
import { MenuCallInput, type MenuCallPage, type MenuCallResponse, type MenuQuery } from './menu.dto.js';
import { MenuRepository, type MenuCallRow } from './menu.repository.js';

type TermName = 'personnel' | 'formation' | 'concept' | 'front' | 'coverage' | 'pressure';
type MenuCalls = Worded<TermName, MenuCallRow, MenuCallRow, MenuCallInput, MenuCallResponse>;

/** The calls that the clan owns, in its own names. */
@Injectable()
export class MenuService {
  private readonly calls;

  constructor(
    worded: WordedResourcesService,
    private readonly repository: MenuRepository,
  ) {
    this.calls = worded.of(menuCalls(repository));
  }

  list(credential: Credential, { after, limit, side, rehearsed }: MenuQuery): Promise<MenuCallPage> {
    const filter = { after: after ?? null, side: side ?? null, rehearsed: rehearsed ?? null };
    return this.calls.list(credential, limit, (db, most) => this.repository.list(db, filter, most));
  }

  /** The whole menu as answers need it: terms as they count for this clan. */
  async installed(db: ClanDatabase, vocabulary: Vocabulary): Promise<MenuCall[]> {
    const term = (id: number | null): number | null => (id === null ? null : vocabulary.canonicalId(id));
    return (await this.repository.all(db)).map(({ id, side, name, rehearsed, reachableByCheck, ...terms }) => ({
      ...{ id, side, name, rehearsed },
      byCheck: reachableByCheck,
      conceptId: term(terms.concept),
      formationId: term(terms.formation),
      frontId: term(terms.front),
      coverageId: term(terms.coverage),
      pressureId: term(terms.pressure),
    }));
  }

  read(credential: Credential, id: string): Promise<MenuCallResponse> {
    return this.calls.read(credential, id);
  }

  create(credential: Credential, creation: Creation, input: MenuCallInput): Promise<MenuCallResponse> {
    return this.calls.create(credential, creation, input);
  }

  change(credential: Credential, id: string, change: Change): Promise<MenuCallResponse> {
    return this.calls.change(credential, id, change);
  }

  remove(credential: Credential, id: string, ifMatch: string): Promise<void> {
    return this.calls.remove(credential, id, ifMatch);
  }
}

function menuCalls(repository: MenuRepository): MenuCalls {
  return {
    kind: 'menu call',
    input: MenuCallInput,
    repository,
    termsOf: ({ side }) => ({
      personnel: side === 'offense' ? 'offensivePersonnel' : 'defensivePersonnel',
      formation: 'formation',
      concept: 'concept',
      front: 'front',
      coverage: 'coverage',
      pressure: 'pressure',
    }),
    answerOf: (
      { id, side, name, rehearsed, reachableByCheck },
      { personnel, formation, concept, front, coverage, pressure },
    ) => ({
      ...{ id, side, name, personnel, formation, concept, front, coverage, pressure, rehearsed, reachableByCheck },
    }),
    inputOf: (answer) => without(answer, 'id'),
    rowOf: (id, { side, name, rehearsed, reachableByCheck }, ids) => ({
      ...{ id, side, name, ...ids },
      rehearsed: rehearsed ?? false,
      reachableByCheck: reachableByCheck ?? false,
    }),
  };
}
