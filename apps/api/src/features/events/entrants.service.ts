import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page, type IdPageQuery } from '../../common/page.dto.js';
import { printed } from '../../common/printed.js';
import { ApiError, type FieldProblem } from '../../common/problems.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EntrantInput, type EntrantPage, type EntrantResponse } from './entrants.dto.js';
import { EntrantsRepository } from './entrants.repository.js';
import { EventsService } from './events.service.js';

const MOST_UNITS = 20;
const LONGEST_UNIT = 40;

@Injectable()
export class EntrantsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: EntrantsRepository,
    private readonly events: EventsService,
  ) {}

  list(credential: Credential, eventId: string, { after, limit }: IdPageQuery): Promise<EntrantPage> {
    return this.transactions.run(credential, 'read', async (db) => {
      await this.events.require(db, eventId);
      return page(await this.repository.list(db, eventId, after ?? null, limit + 1), limit, (entrant) => entrant.id);
    });
  }

  read(credential: Credential, eventId: string, entrantId: string): Promise<EntrantResponse> {
    return this.transactions.run(credential, 'glance', async (db) =>
      found(await this.repository.find(db, eventId, entrantId), 'entrant'),
    );
  }

  create(credential: Credential, creation: Creation, eventId: string, input: EntrantInput): Promise<EntrantResponse> {
    return this.resources.create(credential, creation, async (db) => {
      await this.requireGrades(db, eventId, input);
      const id = uuidv7();
      await this.repository.insert(db, eventId, id, input);
      return found(await this.repository.find(db, eventId, id), 'entrant');
    });
  }

  change(credential: Credential, eventId: string, entrantId: string, change: Change): Promise<EntrantResponse> {
    return this.resources.change(credential, change, this.kept(eventId, entrantId));
  }

  remove(credential: Credential, eventId: string, entrantId: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(eventId, entrantId));
  }

  private kept(eventId: string, id: string): Changeable<EntrantResponse, EntrantInput> & Removable<EntrantResponse> {
    return {
      kind: 'entrant',
      id,
      input: EntrantInput,
      lock: (db) => this.repository.lockOwn(db, eventId, id),
      inputOf: (row) => without(row, 'id', 'eventId', 'handle'),
      write: async (db, input) => {
        await this.requireGrades(db, eventId, input);
        await this.repository.update(db, eventId, id, input);
      },
      read: (db) => this.repository.find(db, eventId, id),
      remove: (db) => this.repository.remove(db, eventId, id),
    };
  }

  /** Grades are words of the event's own scale, and an event without a scale has none. */
  private async requireGrades(db: ClanDatabase, eventId: string, { unitGrades }: EntrantInput): Promise<void> {
    const { gradeScale } = await this.events.requireOwn(db, eventId);
    const grades = Object.entries(unitGrades ?? {});
    const scale = gradeScale ?? [];
    const errors = grades
      .filter(([unit, grade]) => unit.length > LONGEST_UNIT || !scale.some((known) => known === grade))
      .slice(0, MOST_UNITS)
      .map(([unit, grade]): FieldProblem => {
        const expected = scale.length === 0 ? 'an event with a gradeScale' : `one of: ${scale.join(', ')}`;
        return { field: `unitGrades.${unit.slice(0, LONGEST_UNIT)}`, found: printed(grade), expected };
      });
    if (grades.length > MOST_UNITS) {
      errors.push({ field: 'unitGrades', found: String(grades.length), expected: `at most ${MOST_UNITS} units` });
    }
    if (errors.length > 0) throw new ApiError('request.invalid', 'some grades are not valid', { errors });
  }
}
