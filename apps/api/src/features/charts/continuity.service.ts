import { Injectable } from '@nestjs/common';
import { continuityBreaks } from '#domain/football/continuity.js';
import { ClanTransactions } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { TermsService } from '../terms/terms.service.js';
import { ChartRecordsService } from './chart-records.service.js';
import { ChartsService } from './charts.service.js';
import type { ContinuityResponse } from './continuity.dto.js';

/** Worked out from the plays as they are now, so that an edit mends or makes a break at once and nothing is stored. */
@Injectable()
export class ContinuityService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly records: ChartRecordsService,
    private readonly charts: ChartsService,
    private readonly terms: TermsService,
  ) {}

  read(credential: Credential, chartId: string): Promise<ContinuityResponse> {
    return this.transactions.run(credential, 'read', async (db) => {
      const { filmScope, gameId, revision } = await this.records.require(db, chartId);
      const plays = await this.charts.playsOf(db, { chartId, gameId, revision });
      const breaks = continuityBreaks(plays, filmScope, await this.terms.vocabulary(db));
      return {
        chartId,
        revision,
        breaks: breaks.map(({ playNumber, orderInGame, previousPlayNumber, field, found, expected, message }) => ({
          ...{ playNumber, orderInGame, previousPlayNumber, field },
          ...{ found: String(found), expected: String(expected), message },
        })),
      };
    });
  }
}
