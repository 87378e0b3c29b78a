import { Injectable } from '@nestjs/common';
import { uuidv7 } from 'uuidv7';
import { checkMapping, type SheetMapping } from '#domain/charting/sheet-mapping.js';
import { suggestMapping } from '#domain/charting/sheet-mapping-suggest.js';
import type { Change } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { page } from '../../common/page.dto.js';
import { ApiError } from '../../common/problems.js';
import { found, Resources, type Changeable, type Removable } from '../../common/resources.js';
import { without } from '../../common/without.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { TermsService } from '../terms/terms.service.js';
import {
  SheetMappingInput,
  type SheetMappingPage,
  type SheetMappingResponse,
  type SheetMappingsQuery,
  type SuggestionInput,
  type SuggestionResponse,
} from './sheet-mappings.dto.js';
import { SheetMappingsRepository, type SheetMappingBody } from './sheet-mappings.repository.js';

@Injectable()
export class SheetMappingsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: SheetMappingsRepository,
    private readonly terms: TermsService,
  ) {}

  list(credential: Credential, { after, limit }: SheetMappingsQuery): Promise<SheetMappingPage> {
    return this.transactions.run(credential, 'glance', async (db) =>
      page(await this.repository.list(db, after ?? '', limit + 1), limit, ({ name }) => name),
    );
  }

  read(credential: Credential, id: string): Promise<SheetMappingResponse> {
    return this.transactions.run(credential, 'glance', async (db) => found(await this.repository.find(db, id), KIND));
  }

  create(credential: Credential, creation: Creation, input: SheetMappingInput): Promise<SheetMappingResponse> {
    return this.resources.create(credential, creation, async (db) => {
      const id = uuidv7();
      await this.repository.insert(db, id, input.name, await this.checked(db, input));
      return found(await this.repository.find(db, id), KIND);
    });
  }

  change(credential: Credential, id: string, change: Change): Promise<SheetMappingResponse> {
    return this.resources.change(credential, change, this.kept(id));
  }

  remove(credential: Credential, id: string, ifMatch: string): Promise<void> {
    return this.resources.remove(credential, ifMatch, this.kept(id));
  }

  /** What a sheet with these headers seems to be, and the clan's mapping for such sheets if it has one. */
  suggest(credential: Credential, { headers, rows }: SuggestionInput): Promise<SuggestionResponse> {
    return this.transactions.run(credential, 'read', async (db) => ({
      saved: await this.repository.forHeaders(db, headers),
      ...suggestMapping(headers, rows ?? [], await this.terms.vocabulary(db)),
    }));
  }

  /** @throws ApiError `resource.not_found` when the clan has no such mapping */
  async require(db: ClanDatabase, id: string): Promise<SheetMapping> {
    return found(await this.repository.find(db, id), KIND);
  }

  private kept(id: string): Changeable<SheetMappingResponse, SheetMappingInput> & Removable<SheetMappingResponse> {
    return {
      kind: KIND,
      id,
      input: SheetMappingInput,
      lock: (db) => this.repository.lock(db, id),
      inputOf: (row) => without(row, 'id'),
      write: async (db, input) => this.repository.update(db, id, input.name, await this.checked(db, input)),
      read: (db) => this.repository.find(db, id),
      remove: (db) => this.repository.remove(db, id),
    };
  }

  /** @throws ApiError `request.invalid` with everything that the mapping says and that cannot be */
  private async checked(db: ClanDatabase, input: SheetMappingInput): Promise<SheetMappingBody> {
    const { headers, columns, constants = {}, answers = [], us = null, order = 'column' } = input;
    const body = { headers, columns, constants, answers, us, order };
    const errors = checkMapping(body, await this.terms.vocabulary(db));
    if (errors.length > 0) throw new ApiError('request.invalid', 'the mapping does not fit the vocabulary', { errors });
    return body;
  }
}

const KIND = 'sheet mapping';
