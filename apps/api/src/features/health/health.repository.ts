import { Inject, Injectable } from '@nestjs/common';
import type { Pool } from 'pg';
import { SERVICE_POOL } from '../../database/clan-transaction.js';

/** Asks the server whether it is there; no clan is entered, so no row can be seen. */
@Injectable()
export class HealthRepository {
  constructor(@Inject(SERVICE_POOL) private readonly pool: Pool) {}

  async ping(): Promise<void> {
    await this.pool.query('select 1');
  }
}
